using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Changes;

/// <summary>Two plans side by side.</summary>
/// <param name="Cost">By constraint: with the change less without; negative is cheaper.</param>
/// <param name="MovedSowDays">Batches in both plans whose sow day differs.</param>
/// <param name="MovedZones">Whose zone differs.</param>
/// <param name="MovedBenches">Whose bench differs.</param>
/// <param name="NowLate">Batches on time before and late now.</param>
/// <param name="NowOnTime">Late or without a place before, on time now.</param>
/// <param name="NowUnplaced">With a place before, without now.</param>
public sealed record PlanDifference(
    IReadOnlyDictionary<string, long> Cost, IReadOnlyList<string> MovedSowDays, IReadOnlyList<string> MovedZones,
    IReadOnlyList<string> MovedBenches, IReadOnlyList<string> NowLate, IReadOnlyList<string> NowOnTime, IReadOnlyList<string> NowUnplaced)
{
    /// <summary>Batches that people would notice as changed, each once.</summary>
    public IReadOnlyList<string> Changed => [.. MovedSowDays.Union(MovedZones).Union(MovedBenches).Union(NowUnplaced)];

    public static PlanDifference Of(Problem problem, Plan before, Plan after)
    {
        var batches = problem.Batches.ToDictionary(batch => batch.Id);
        var old = before.Batches.ToDictionary(placed => placed.Id);
        var both = after.Batches.Where(placed => old.ContainsKey(placed.Id)).Select(placed => (Old: old[placed.Id], New: placed)).ToList();
        return new PlanDifference(
            after.Score.ByConstraint.ToDictionary(pair => pair.Key, pair => pair.Value - before.Score.ByConstraint.GetValueOrDefault(pair.Key)),
            [.. both.Where(pair => pair.Old.SowOn != pair.New.SowOn).Select(pair => pair.New.Id)],
            [.. both.Where(pair => pair.Old.Heat[0].Zone != pair.New.Heat[0].Zone).Select(pair => pair.New.Id)],
            [.. both.Where(pair => pair.Old.Benches[0].Bench != pair.New.Benches[0].Bench).Select(pair => pair.New.Id)],
            [.. both.Where(pair => !Late(pair.Old) && Late(pair.New)).Select(pair => pair.New.Id)],
            [.. after.Batches.Where(placed => !Late(placed) && (!old.TryGetValue(placed.Id, out var was) || Late(was))).Select(placed => placed.Id)],
            [.. after.Unplaced.Where(unplaced => old.ContainsKey(unplaced.Id)).Select(unplaced => unplaced.Id)]);

        bool Late(PlannedBatch placed) => batches.TryGetValue(placed.Id, out var batch) && placed.ReadyOn > batch.LastOnTime;
    }
}

/// <summary>Tries changes out on a copy: the season itself is not touched.</summary>
public static class WhatIf
{
    /// <exception cref="ProblemUnreadable">A change names what is not there.</exception>
    public static (Planned Planned, PlanDifference Difference) Try(
        Problem problem, Plan today, IEnumerable<SeasonChange> changes, Effort effort, Action<PlanProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        var changed = changes.Aggregate(problem, (sofar, change) => change.Applied(sofar));
        var planned = Planner.Plan(changed, effort, progress, cancellation);
        return (planned, PlanDifference.Of(planned.Checked.Usable, today, planned.Plan));
    }
}
