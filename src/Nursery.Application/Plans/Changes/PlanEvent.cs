using System.Text.Json.Serialization;
using NodaTime;

namespace Nursery.Application.Plans.Changes;

/// <summary>Something that happens to the season, or is tried out on a copy of it, in the site's codes.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(SlippedBatch), "batchSlips")]
[JsonDerivedType(typeof(BenchOut), "benchOutOfUse")]
[JsonDerivedType(typeof(ZoneOut), "zoneBroken")]
[JsonDerivedType(typeof(AddedOrder), "orderAdded")]
[JsonDerivedType(typeof(CancelledBatch), "batchCancelled")]
[JsonDerivedType(typeof(TriedSetpoints), "zoneSetpoints")]
[JsonDerivedType(typeof(RentedSpaces), "spacesRented")]
[JsonDerivedType(typeof(MoreHardening), "hardeningSpaces")]
[JsonDerivedType(typeof(TriedPrices), "prices")]
public abstract record PlanEvent;

/// <summary>A batch is so many days later than planned, -60 to 60, not 0. Sown it stays so much longer where it is and all that follows
/// is so much later; not sown it cannot be sown before.</summary>
public sealed record SlippedBatch(string Batch, int Days) : PlanEvent;

/// <summary>A bench cannot be used from a day (today or later) to the first day it can again.</summary>
/// <param name="Why">Up to 200 characters; null when nobody said.</param>
public sealed record BenchOut(string Bench, LocalDate From, LocalDate To, string? Why = null) : PlanEvent;

/// <summary>A heat zone cannot be used from a day (today or later) to the first day it can again.</summary>
/// <param name="Why">Up to 200 characters; null when nobody said.</param>
public sealed record ZoneOut(string Zone, LocalDate From, LocalDate To, string? Why = null) : PlanEvent;

/// <summary>Somebody orders so many plants more, 1 to 1,000,000, for a day. Tried out only.</summary>
public sealed record AddedOrder(string Variety, int Plants, LocalDate ReadyOn) : PlanEvent;

/// <summary>A batch is no longer wanted. Tried out only.</summary>
public sealed record CancelledBatch(string Batch) : PlanEvent;

/// <summary>A zone may be given these setpoints and no others, 1 to 8, °F, 32 to 120. Tried out only.</summary>
public sealed record TriedSetpoints(string Zone, IReadOnlyList<double> SetpointsF) : PlanEvent;

/// <summary>Spaces more, 1 to 5,000, on a warm or cool bench or on heat, from a day to the first day no longer. Tried out only.</summary>
/// <param name="Use">Warm, Cool or Heat.</param>
public sealed record RentedSpaces(PlaceKind Use, int Spaces, LocalDate From, LocalDate To) : PlanEvent;

/// <summary>Spaces more for hardening off, 1 to 5,000, all season. Tried out only.</summary>
public sealed record MoreHardening(int More) : PlanEvent;

/// <summary>Other prices, cents, 0 to 1,000,000; null stays as it is. Tried out only. What each is for: docs/planning.md.</summary>
public sealed record TriedPrices(
    int? DayOffDue = null, int? DayLate = null, int? DegreeOff = null, int? UnplacedTray = null, int? HeatTenDegrees = null,
    int? SetpointChange = null, int? Split = null, int? MovedSowDay = null, int? MovedPlace = null) : PlanEvent;
