using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Forecasts;

/// <summary>All that is known of a batch before it is computed with.</summary>
/// <param name="Row">The batch and what it is of.</param>
/// <param name="Lot">The lot sown, else the one planned.</param>
/// <param name="Ordered">Whom it is for, the earliest first.</param>
/// <param name="Heat">Temperatures of its mix.</param>
/// <param name="Counts">By day, one a day.</param>
/// <param name="House">Code of the house it stands in; null without a place.</param>
internal sealed record ForecastGround(
    BatchRow Row, SeedLot? Lot, IReadOnlyList<OrderedPlants> Ordered, HeatRecord Heat, IReadOnlyList<CountedDay> Counts, string? House)
{
    /// <summary>Day of sowing, in fact or by plan.</summary>
    public LocalDate SownOn => Row.Batch.State.SownOn ?? Row.Batch.SowOn;

    /// <summary>What is asked of a seed sown where this batch was.</summary>
    public SeedQuestion Asked(SeedLot? lot, LocalDate day) => new(Row.Crop, lot, House, Heat.First, day);
}

/// <summary>What the mix had since sowing, and what a resow would have.</summary>
/// <param name="Record">Days since sowing.</param>
/// <param name="Resow">The heat it stood on, as it is set today.</param>
/// <param name="From">In words: which zone, or what is assumed.</param>
internal sealed record HeatRecord(TemperatureRecord Record, Temperature First, Temperature Resow, string From);
