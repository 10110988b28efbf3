using Nursery.Application.Batches;
using Nursery.Domain.Batches;

namespace Nursery.Web.Components.Pages.Batches;

/// <summary>Which batches are looked at.</summary>
public sealed record BatchFilter(string Text = "", string CropCode = "", BatchStage? Stage = null, bool OnlyUnplaced = false)
{
    public bool Shows(BatchItem batch, IReadOnlySet<Guid> unplaced) =>
        (Stage is null || batch.Stage == Stage)
        && (CropCode.Length == 0 || batch.CropCode == CropCode)
        && (!OnlyUnplaced || unplaced.Contains(batch.Id))
        && (Text.Trim().Length == 0
            || new[] { batch.Code, batch.CropName, batch.VarietyName, batch.LotCode ?? "" }
                .Any(words => words.Contains(Text.Trim(), StringComparison.OrdinalIgnoreCase)));
}
