using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>One run of a kind a site at a time.</summary>
public sealed class RunUnderWay(Guid id, string startedBy, int done, int total) : Refusal(string.Create(
    CultureInfo.InvariantCulture,
    $"{startedBy} started this already and it is not ready: {done} of {total} done. Wait for it, or stop it"))
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["id"] = id,
        ["startedBy"] = startedBy,
        ["done"] = done,
        ["total"] = total,
    };
}
