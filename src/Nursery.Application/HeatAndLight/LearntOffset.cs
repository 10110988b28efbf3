using System.Globalization;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Heat;
using Nursery.Application.Computed;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatAndLight;

/// <summary>What the seeds of a zone say of its mix.</summary>
/// <param name="MediaC">They behave as at this temperature today, °C, with the 90 % interval.</param>
/// <param name="LowC">Lower end.</param>
/// <param name="HighC">Upper end.</param>
/// <param name="Batches">Counted batches that say so.</param>
/// <param name="IsUsed">Enough of them for the forecasts to go by it.</param>
/// <param name="How">Formula, inputs, source.</param>
public sealed record LearntOffset(decimal MediaC, decimal LowC, decimal HighC, int Batches, bool IsUsed, How How)
{
    internal static LearntOffset? Of(HeatZone zone, decimal setpointC, Units units)
    {
        if (zone is not { OffsetC: { } offset, OffsetLowC: { } low, OffsetHighC: { } high })
        {
            return null;
        }

        return new LearntOffset(
            setpointC + offset, setpointC + low, setpointC + high, zone.OffsetBatches, zone.OffsetBatches >= ZoneOffset.FewestBatches,
            new How(
                $"mix of zone {zone.Code} as its seeds behave",
                "setpoint + offset; the offset from how quick batches came up against their crops, told apart from nursery, crop and variety",
                [
                    new HowInput("setpoint today", Degrees.Of(setpointC, units), "", "the zone"),
                    new HowInput("offset learnt", $"{Difference(offset, units)} ({Difference(low, units)} to {Difference(high, units)})", "", Counted(zone.OffsetBatches)),
                    new HowInput("offset before anything is counted", $"{Difference(MediaOffset.DefaultCelsius, units)} ± {Difference((decimal)ZoneOffsets.BetweenZones, units).TrimStart('+')}", "", "from memory"),
                ],
                "crossed random effects: Gelman & Hill 2007, ch. 13 (from memory)",
                "docs/agronomy/zone-offset.md"));
    }

    /// <summary>A difference of temperatures: 5 °C are 9 °F.</summary>
    private static string Difference(decimal celsius, Units units) => units == Units.UsCustomary
        ? string.Create(CultureInfo.InvariantCulture, $"{celsius * 9 / 5:+0.0;-0.0;0} °F")
        : string.Create(CultureInfo.InvariantCulture, $"{celsius:+0.0;-0.0;0} °C");

    private static string Counted(int batches) => string.Create(
        CultureInfo.InvariantCulture, $"{batches} counted {(batches == 1 ? "batch" : "batches")} of the last thirteen months");
}
