using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>More tags than one answer gives: they are printed in the background.</summary>
public sealed class TooManyTags(int tags, int most) : Refusal(string.Create(
    CultureInfo.InvariantCulture,
    $"These are {tags:N0} tags; one answer gives at most {most:N0}. Start a run for them, which prints in the background"))
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?> { ["tags"] = tags, ["most"] = most };
}
