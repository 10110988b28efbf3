namespace Nursery.Application.Germination;

/// <summary>A row with the batches it is made of, the latest sown first.</summary>
public sealed record GerminationRow(GerminationItem Item, IReadOnlyList<GerminatedBatch> Batches)
{
    public bool IsOfSeveralCrops => Batches.Any(batch => batch.CropCode != Batches[0].CropCode);

    /// <summary>Figures its curves are compared with: words and a fraction 0–1.</summary>
    public IReadOnlyList<(string Words, decimal Fraction)> Compared =>
    [
        .. Item.LabelFraction is { } label ? [("label", label)] : Array.Empty<(string, decimal)>(),
        .. Item.MinimumFraction is { } minimum ? [("published minimum", minimum)] : Array.Empty<(string, decimal)>(),
    ];
}
