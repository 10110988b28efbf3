using NodaTime;
using Nursery.Application.Computed;
using Nursery.Domain.Batches;
using Interval = Nursery.Agronomy.Interval;

namespace Nursery.Application.Forecasts;

/// <summary>How far a batch is known.</summary>
public enum ForecastBasis
{
    /// <summary>Nothing is counted: label, house and temperature speak.</summary>
    Expected,

    /// <summary>Counted while more may come.</summary>
    Counted,

    /// <summary>No more will come: what was counted last.</summary>
    Over,
}

/// <summary>Chance that an order line, or a delivery of it, gets its plants; those due earlier are served first.</summary>
public sealed record LineChance(OrderedPlants Line, double Chance);

/// <summary>First, likeliest and last day of nine in ten.</summary>
public sealed record DayWindow(LocalDate Early, LocalDate Likely, LocalDate Late);

/// <summary>What is to be expected of a batch; intervals hold nine in ten.</summary>
public sealed record BatchForecast
{
    public required Guid BatchId { get; init; }
    public required string Code { get; init; }
    public required string CropName { get; init; }
    public required string VarietyName { get; init; }
    public required BatchStage Stage { get; init; }

    /// <summary>Day of sowing, in fact or by plan.</summary>
    public required LocalDate SownOn { get; init; }
    public required LocalDate Today { get; init; }
    public required int Cells { get; init; }
    public required int SeedsPerCell { get; init; }
    public required ForecastBasis Basis { get; init; }

    /// <summary>The last count of any kind.</summary>
    public required CountedDay? Last { get; init; }

    /// <summary>Why nothing can be expected, in a sentence; null when something can.</summary>
    public string? WhyNone { get; init; }

    /// <summary>Seeds that will have come up ÷ seeds.</summary>
    public Interval FinalFraction { get; init; }

    /// <summary>Cells that will have a plant.</summary>
    public Interval Stand { get; init; }

    /// <summary>Of the stand, what survives, less what was lost beyond that.</summary>
    public Interval UsablePlants { get; init; }

    /// <summary>Plants ordered of this batch.</summary>
    public required int Wanted { get; init; }

    /// <summary>The earliest day one of them is due; null without an order.</summary>
    public LocalDate? DueOn { get; init; }

    /// <summary>That all its orders get their plants, 0–1; null without an order.</summary>
    public double? ChanceMet { get; init; }

    /// <summary>That plants are missing that matter: three and 5 %; null without an order.</summary>
    public double? ChanceShort { get; init; }

    /// <summary>Plants missing on average.</summary>
    public double ExpectedMissing { get; init; }

    public IReadOnlyList<LineChance> Lines { get; init; } = [];

    /// <summary>When nine in ten of the stand are up; null when none comes at the temperature.</summary>
    public LocalDate? NineInTenUpOn { get; init; }

    /// <summary>Half up, nine in ten.</summary>
    public DayWindow? HalfUp { get; init; }

    /// <summary>When the plants are ready; null when none comes.</summary>
    public DayWindow? Ready { get; init; }

    /// <summary>Last day on which the same seed sown again is still ready for the earliest order.</summary>
    public LocalDate? LastResowOn { get; init; }

    /// <summary>First day on which a short stand shows.</summary>
    public LocalDate? KnownFrom { get; init; }

    /// <summary>Days between ready by plan and due: what buys a resow; null without an order.</summary>
    public int? SlackDays { get; init; }

    /// <summary>False when a short stand shows only after the last day of a resow; null without an order.</summary>
    public bool? KnownInTime => LastResowOn is { } last && KnownFrom is { } known ? known <= last : null;

    public IReadOnlyList<How> How { get; init; } = [];
}
