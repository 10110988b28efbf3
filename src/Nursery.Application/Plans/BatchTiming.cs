using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>The days of a batch in a plan, with what they come from; every second day of a stay is the first no longer there.</summary>
/// <param name="SetpointF">°F of its zone.</param>
/// <param name="ProgressPerDay">Part of the way to leaving heat it makes in a day at that setpoint; null when the plan has it where its seed would not come up.</param>
/// <param name="Due">Day its trays should be gone.</param>
/// <param name="LastOnTime">Last such day that is on time.</param>
public sealed record BatchTiming(
    string Code, string Crop, double SetpointF, double? ProgressPerDay, DateOnly SowOn, DateOnly MoveOffOn, DateOnly SpaceOn, DateOnly HardenOn,
    DateOnly ReadyOn, DateOnly Due, DateOnly LastOnTime)
{
    internal static IReadOnlyDictionary<string, BatchTiming> Of(Problem problem, Plan plan)
    {
        var (batches, crops) = (problem.Batches.ToDictionary(batch => batch.Id), problem.Crops.ToDictionary(crop => crop.Id));
        return plan.Batches.Where(placed => batches.ContainsKey(placed.Id)).ToDictionary(placed => placed.Id, placed =>
        {
            var (batch, at) = (batches[placed.Id], crops[batches[placed.Id].Crop].Table.FirstOrDefault(row => row.SetpointF.Equals(placed.SetpointF)));
            return new BatchTiming(
                placed.Id, batch.Crop, placed.SetpointF, at?.ProgressPerDay, placed.SowOn, placed.MoveOffOn, placed.SpaceOn, placed.HardenOn, placed.ReadyOn,
                batch.Due, batch.LastOnTime);
        });
    }
}
