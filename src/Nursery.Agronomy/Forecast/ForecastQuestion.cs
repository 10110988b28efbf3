using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Forecast;

/// <summary>What is known of a batch.</summary>
/// <param name="Rate">The rate of its crop or variety.</param>
/// <param name="Curve">How its emergence spreads.</param>
/// <param name="Cells">Sown, 1 to 1,000,000.</param>
/// <param name="SeedsPerCell">1 to 50.</param>
/// <param name="Prior">Final emergence of seed, before it is counted: label × house factor × normal seedlings at the temperature.</param>
/// <param name="Temperatures">Of the growing mix since the first watering on heat.</param>
/// <param name="Counts">In any order; those after the day asked for are left out.</param>
/// <param name="AsOfDay">Days since sowing, 0 to 366.</param>
/// <param name="WantedPlants">0 to 10,000,000.</param>
public sealed record ForecastQuestion(
    RateModel Rate, EmergenceCurve Curve, int Cells, int SeedsPerCell, BetaShape Prior, TemperatureRecord Temperatures,
    IReadOnlyList<EmergenceCount> Counts, double AsOfDay, int WantedPlants)
{
    /// <summary>What survives of the emerged; null for all.</summary>
    public BetaShape? Survival { get; init; }

    /// <summary>Day the plants are due, days since sowing; null where none is.</summary>
    public double? DueDay { get; init; }

    /// <summary>Days from a stand that is up to plants that are ready, 0 to 366.</summary>
    public double? GrowDays { get; init; }

    /// <summary>What a resow would have; null for the last of the record. Trays that are off the heat are no measure for it.</summary>
    public Temperature? ResowTemperature { get; init; }

    public long Seeds => (long)Cells * SeedsPerCell;

    internal void Check()
    {
        InputOutOfRange.Within(Cells, 1, 1_000_000, "cells", "cells");
        InputOutOfRange.Within(SeedsPerCell, 1, 50, "seedsPerCell", "seeds");
        InputOutOfRange.Within(AsOfDay, 0, 366, "asOfDay", "days since sowing");
        InputOutOfRange.Within(WantedPlants, 0, 10_000_000, "wantedPlants", "plants");
        InputOutOfRange.Within(DueDay ?? 0, 0, 1000, "dueDay", "days since sowing");
        InputOutOfRange.Within(GrowDays ?? 0, 0, 366, "growDays", "days");
        foreach (var count in Counts)
        {
            InputOutOfRange.Within(count.Day, 0, 366, "counts.day", "days since sowing");
            InputOutOfRange.Within(count.Cells, 1, Cells, "counts.cells", "cells");
            var most = count.What == CountKind.Seedlings ? count.Cells * SeedsPerCell : count.Cells;
            InputOutOfRange.Within(count.Value, 0, most, "counts.value", count.What == CountKind.Seedlings ? "seedlings" : "cells");
        }
    }
}
