using System.Globalization;

namespace Nursery.Domain.Refusals;

public sealed class BenchIsFull(string benchCode, int spaces, int free, int longestRun, int asked)
    : Refusal(string.Create(
        CultureInfo.InvariantCulture,
        $"Bench {benchCode} has {spaces} spaces; on those days {free} are free, the longest run is {longestRun}, {asked} asked"))
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["spaces"] = spaces,
        ["free"] = free,
        ["longestRun"] = longestRun,
        ["asked"] = asked,
    };
}
