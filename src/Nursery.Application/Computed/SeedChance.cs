using NodaTime;
using Nursery.Agronomy;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Computed;

/// <summary>What is asked of a seed.</summary>
/// <param name="Crop">Of the variety.</param>
/// <param name="Lot">Null where none is chosen yet.</param>
/// <param name="HouseCode">Where the trays go; null for the site as a whole.</param>
/// <param name="Media">Of the growing mix.</param>
/// <param name="Day">Of sowing.</param>
public sealed record SeedQuestion(Crop Crop, SeedLot? Lot, string? HouseCode, Temperature Media, LocalDate Day)
{
    /// <summary>A batch whose own counts are not to speak of it twice: they come on top of the chance.</summary>
    public Guid? Except { get; init; }
}

/// <summary>What a seed can be expected to do before anything of its batch is counted.</summary>
/// <param name="Prior">Chance to come up, with how much batches differ.</param>
/// <param name="Germination">In a laboratory, today: label, aged, moved by the own record.</param>
/// <param name="HousePoints">What a cell of the house does against a laboratory, points.</param>
/// <param name="Normal">Share of that which gives normal seedlings at the temperature.</param>
/// <param name="How">The chance and what it is made of.</param>
public sealed record SeedChance(BetaShape Prior, Fraction Germination, double HousePoints, Fraction Normal, How How);
