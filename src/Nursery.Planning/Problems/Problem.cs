namespace Nursery.Planning.Problems;

/// <summary>A nursery and one season of tray sets to place. Days are counted from <paramref name="Start"/>, weeks in sevens from it;
/// temperatures are °F. Every list may be empty; null means empty.</summary>
/// <param name="Start">First day of the season.</param>
/// <param name="Days">Days of the season, 7 to 730.</param>
/// <param name="Houses">Where the benches stand.</param>
/// <param name="Benches">In walking order.</param>
/// <param name="Zones">Heat zones of the heated benches, in walking order.</param>
/// <param name="HardeningSpaces">Tray spaces for hardening off, one pool.</param>
/// <param name="Crops">Temperature tables and times, by crop.</param>
/// <param name="Batches">What is to be placed.</param>
/// <param name="Prices">What is paid for what; null is the usual list.</param>
/// <param name="Frozen">Spaces held by trays that stay where they are.</param>
/// <param name="Setpoints">Setpoints that are already promised.</param>
/// <param name="HardeningDays">Days of hardening off, 0 to 60.</param>
public sealed record Problem(
    DateOnly Start,
    int Days,
    IReadOnlyList<House> Houses,
    IReadOnlyList<Bench> Benches,
    IReadOnlyList<HeatZone> Zones,
    int HardeningSpaces,
    IReadOnlyList<Crop> Crops,
    IReadOnlyList<Batch> Batches,
    Prices? Prices = null,
    IReadOnlyList<FrozenStay>? Frozen = null,
    IReadOnlyList<FrozenSetpoint>? Setpoints = null,
    int HardeningDays = 7)
{
    public DateOnly End => Start.AddDays(Days);

    public int DayOf(DateOnly date) => date.DayNumber - Start.DayNumber;

    public DateOnly DateOf(int day) => Start.AddDays(day);
}

/// <summary>A greenhouse or tunnel.</summary>
public sealed record House(string Id, string? Name = null);

/// <summary>Days on which a bench cannot be used: from a day to the first day it can be used again.</summary>
public sealed record OutOfUse(DateOnly From, DateOnly To);

/// <summary>A bench.</summary>
/// <param name="Use">Warm or Cool; Heat when its zones carry the trays.</param>
/// <param name="Spaces">Tray spaces, 1 to 5,000; on a heated bench those of all its zones.</param>
/// <param name="WidthIn">Inches; for drawings.</param>
/// <param name="LengthIn">Inches; for drawings.</param>
public sealed record Bench(
    string Id, string House, BenchUse Use, int Spaces, double WidthIn, double LengthIn, IReadOnlyList<OutOfUse>? OutOfUse = null);

/// <summary>A run of a heated bench's spaces on one thermostat. It holds one setpoint a week, or is off.</summary>
/// <param name="FirstSpace">Its first space on the bench, from 1.</param>
/// <param name="Spaces">Tray spaces, 1 to 5,000.</param>
/// <param name="SetpointsF">Setpoints it may be given, °F, 32 to 120.</param>
/// <param name="BeforeF">Setpoint in the week before the season; null when a first setpoint is free of charge.</param>
public sealed record HeatZone(
    string Id, string Bench, int FirstSpace, int Spaces, IReadOnlyList<double> SetpointsF, double? BeforeF = null,
    IReadOnlyList<OutOfUse>? OutOfUse = null);

/// <summary>One row of a crop's temperature table.</summary>
/// <param name="SetpointF">°F.</param>
/// <param name="ProgressPerDay">Part of the way to leaving heat made in a day, above 0 to 1; a batch leaves when the sum reaches 1.</param>
public sealed record CropTemperature(double SetpointF, double ProgressPerDay);

/// <summary>A crop: where its seed comes up and how long it grows on.</summary>
/// <param name="MinF">Lowest setpoint its seed accepts, °F.</param>
/// <param name="BestF">Setpoint it likes best, °F.</param>
/// <param name="MaxF">Highest it accepts, °F.</param>
/// <param name="Table">Rows only for setpoints it accepts.</param>
/// <param name="WarmDays">Days on a warm bench after heat; null when it must not stand there.</param>
/// <param name="CoolDays">Days on a cool bench; null when it must not stand there.</param>
/// <param name="FootprintFactor">Spaces after spacing for each space before, 1 to 10.</param>
public sealed record Crop(
    string Id, double MinF, double BestF, double MaxF, IReadOnlyList<CropTemperature> Table, int? WarmDays = null, int? CoolDays = null,
    double FootprintFactor = 1);

/// <summary>A tray set to place.</summary>
/// <param name="Trays">Trays, 1 or more: what costs are counted by.</param>
/// <param name="Due">Day it should be ready.</param>
/// <param name="Spaces">Spaces before spacing; null is one a tray.</param>
/// <param name="SpacesAfter">Spaces after spacing; null is by the crop's footprint factor, rounded up.</param>
/// <param name="Earliest">First ready day that is right; null is 3 days before due.</param>
/// <param name="Latest">Last ready day that is on time; null is 4 days after due.</param>
/// <param name="LastLate">Last ready day that is worth handing over late; null is 9 days after due.</param>
/// <param name="SowFrom">It cannot be sown before; null is the season's start.</param>
/// <param name="Now">Where it stands in the plan of today: leaving it costs.</param>
public sealed record Batch(
    string Id, string Crop, int Trays, DateOnly Due, int? Spaces = null, int? SpacesAfter = null, DateOnly? Earliest = null,
    DateOnly? Latest = null, DateOnly? LastLate = null, DateOnly? SowFrom = null, PlaceNow? Now = null)
{
    public int SpacesBefore => Spaces ?? Trays;

    public int SpacesSpaced(Crop crop) => SpacesAfter ?? (int)Math.Ceiling((SpacesBefore * crop.FootprintFactor) - 1e-9);

    public DateOnly FirstReady => Earliest ?? Due.AddDays(-3);

    public DateOnly LastOnTime => Latest ?? Due.AddDays(4);

    public DateOnly LastReady => LastLate ?? Due.AddDays(9);
}

/// <summary>A batch's place in the plan of today. Null zone or bench: none is kept.</summary>
/// <param name="FirstSpace">First space in the zone and on the bench, where it may stay when nothing is in the way; 0 is unknown.</param>
public sealed record PlaceNow(
    DateOnly SowOn, string? Zone = null, string? Bench = null, int ZoneSpace = 0, int BenchSpace = 0, int BenchSpaceAfter = 0);

/// <summary>Spaces held by trays that stay: in a zone, on a bench, or in hardening (then the first space says nothing).</summary>
/// <param name="Where">Id of a zone or bench, or "hardening".</param>
/// <param name="To">First day no longer held.</param>
/// <param name="FirstSpace">Within the zone or bench, from 1.</param>
/// <param name="MinF">Lowest setpoint they accept while in a zone, °F.</param>
/// <param name="MaxF">Highest, °F.</param>
public sealed record FrozenStay(
    string Where, DateOnly From, DateOnly To, int FirstSpace, int Spaces, double? MinF = null, double? MaxF = null, string? Batch = null);

/// <summary>A zone's setpoint over whole weeks of the season that touch these days; null is off.</summary>
/// <param name="To">First day it no longer holds.</param>
public sealed record FrozenSetpoint(string Zone, DateOnly From, DateOnly To, double? SetpointF = null);

/// <summary>Where frozen trays may stand besides a zone or a bench.</summary>
public static class FrozenWhere
{
    public const string Hardening = "hardening";
}
