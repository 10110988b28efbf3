using NodaTime;
using Nursery.Agronomy;
using Nursery.Domain.Batches;

namespace Nursery.Application.Germination;

/// <summary>How the seed of one counted batch came up.</summary>
public sealed record GerminatedBatch
{
    public required Guid Id { get; init; }
    public required string Code { get; init; }
    public required string CropCode { get; init; }
    public required string CropName { get; init; }
    public required string VarietyCode { get; init; }
    public required string VarietyName { get; init; }
    public required string? LotCode { get; init; }

    /// <summary>Germination on the lot's label, 0–1.</summary>
    public required decimal? LabelFraction { get; init; }

    /// <summary>Where the trays first stood; null when that is not known.</summary>
    public required string? HouseCode { get; init; }
    public required string? HouseName { get; init; }
    public required LocalDate SownOn { get; init; }

    /// <summary>Day of the count that says most.</summary>
    public LocalDate? CountedOn { get; init; }

    /// <summary>Seeds of the counted cells, by the count that says most.</summary>
    public required int Seeds { get; init; }
    public required decimal Emerged { get; init; }

    /// <summary>All counts of emergence, by day.</summary>
    public required IReadOnlyList<EmergenceCount> Counts { get; init; }

    /// <summary>0–1.</summary>
    public decimal Fraction => Emerged / Seeds;

    /// <summary>Days from sowing until half of the emerged were up; null when no count reached half.</summary>
    public HalfTime? Half => HalfTime.Of([.. Counts.Select(count => (DaysOf(count), (double)count.Fraction))], (double)Fraction);

    /// <summary>Days from sowing to a count.</summary>
    public int DaysOf(EmergenceCount count) => Period.DaysBetween(SownOn, count.Day);
}
