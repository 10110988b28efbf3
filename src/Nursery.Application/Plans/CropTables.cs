using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Application.Crops;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>A crop as the planner knows it: how far seed comes in a day at each setpoint, from the emergence model.</summary>
internal static class CropTables
{
    /// <summary>Longer than that nobody keeps trays on heat (common practice, no source).</summary>
    private const double MostDays = 40;

    private const decimal LeastShare = 0.05m;
    private const decimal MostShare = 0.95m;

    /// <param name="crop">Of the nursery.</param>
    /// <param name="levels">Setpoints zones may have.</param>
    /// <param name="hardeningDays">Days of hardening off the plan counts for all crops.</param>
    public static Planning.Problems.Crop Of(Domain.Crops.Crop crop, ZoneLevels levels, int hardeningDays)
    {
        var growOn = GrowOnDays(crop, hardeningDays);
        return new Planning.Problems.Crop(
            crop.Code, ZoneLevels.F(crop.GerminationMinC), ZoneLevels.F(crop.GerminationOptimumC), ZoneLevels.F(crop.GerminationMaxC),
            [.. Rows(crop, levels).OrderBy(row => row.SetpointF)],
            crop.GrowOnBand == Band.Warm ? growOn : null, crop.GrowOnBand == Band.Cool ? growOn : null);
    }

    /// <summary>What is left of the crop's weeks beside its usual days on heat and hardening off; 1 or more.</summary>
    private static int GrowOnDays(Domain.Crops.Crop crop, int hardeningDays) =>
        Math.Max(1, crop.DaysToReady + 1 - crop.PlannedHeatDays - hardeningDays);

    private static IEnumerable<CropTemperature> Rows(Domain.Crops.Crop crop, ZoneLevels levels)
    {
        var emergence = FindCropEmergence.Of(crop);
        var share = emergence.Curve.ProgressTo(new Fraction((double)Math.Clamp(crop.MoveOffFraction, LeastShare, MostShare)));
        var (least, most) = (ZoneLevels.F(crop.GerminationMinC), ZoneLevels.F(crop.GerminationMaxC));
        foreach (var setpoint in levels.All.Where(level => level >= least && level <= most && crop.Accepts(levels.Celsius(level))))
        {
            var days = emergence.Rate.DaysToHalf(MediaOffset.Of(new Temperature(levels.Celsius(setpoint)))) * share;
            if (days is > 0 and <= MostDays)
            {
                yield return new CropTemperature(setpoint, Math.Min(1, 1 / days.Value));
            }
        }
    }
}
