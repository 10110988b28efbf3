using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>A proposal that no longer fits what is there; nothing of it was done.</summary>
/// <param name="reasons">A sentence each, without a full stop.</param>
public sealed class PlanGroundMoved(IReadOnlyList<string> reasons) : Refusal(string.Create(
    CultureInfo.InvariantCulture,
    $"The nursery has changed since this was computed, and nothing was accepted. {string.Join(". ", reasons.Take(Shown))}{(reasons.Count > Shown ? $". And {reasons.Count - Shown} more" : "")}. Compute a new proposal"))
{
    private const int Shown = 5;

    public IReadOnlyList<string> Reasons => reasons;

    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?> { ["reasons"] = reasons };
}
