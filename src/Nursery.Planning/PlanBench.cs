namespace Nursery.Planning;

/// <summary>A run of a bench's spaces as the planner sees it: a heat zone, or a whole unheated bench.</summary>
/// <param name="Id">The bench.</param>
/// <param name="Use">Heat for a zone of a germination bench.</param>
/// <param name="FirstSpace">First space, from 1.</param>
/// <param name="Spaces">Spaces in the run, 1 or more.</param>
/// <param name="SetpointC">°C; null where there is no heat.</param>
/// <param name="Changes">Spans with another setpoint: from a day to the first day it no longer holds.</param>
public sealed record PlanBench(
    Guid Id,
    BenchUse Use,
    int FirstSpace,
    int Spaces,
    decimal? SetpointC = null,
    IReadOnlyList<(DateOnly From, DateOnly To, decimal SetpointC)>? Changes = null)
{
    /// <summary>Whether every setpoint from a day to the first day no longer asked for lies in a band, both ends included.</summary>
    public bool Suits(decimal minC, decimal maxC, DateOnly from, DateOnly to)
    {
        if (SetpointC is not { } own)
        {
            return false;
        }

        var changes = (Changes ?? []).Where(change => change.From < to && from < change.To).OrderBy(change => change.From).ToList();
        var day = from;
        var ownHolds = false;
        foreach (var change in changes)
        {
            ownHolds |= change.From > day;
            day = change.To;
        }

        ownHolds |= day < to;
        return (!ownHolds || In(own)) && changes.All(change => In(change.SetpointC));

        bool In(decimal setpoint) => setpoint >= minC && setpoint <= maxC;
    }
}
