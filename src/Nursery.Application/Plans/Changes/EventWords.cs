using System.Globalization;
using NodaTime;

namespace Nursery.Application.Plans.Changes;

/// <summary>What happened or is tried out, in a sentence without a full stop.</summary>
public static class EventWords
{
    public static string Of(PlanEvent change) => change switch
    {
        SlippedBatch slip => $"{slip.Batch} is {Days(Math.Abs(slip.Days))} {(slip.Days > 0 ? "later" : "sooner")} than planned",
        BenchOut bench => OutOfUse($"Bench {bench.Bench}", bench.From, bench.To, bench.Why),
        ZoneOut zone => OutOfUse($"Heat zone {zone.Zone}", zone.From, zone.To, zone.Why),
        AddedOrder order => $"{Number(order.Plants)} plants of {order.Variety} more are ordered for {Day(order.ReadyOn)}",
        CancelledBatch batch => $"{batch.Batch} is no longer wanted",
        TriedSetpoints zone => $"Heat zone {zone.Zone} may be set to {string.Join(", ", zone.SetpointsF.Select(setpoint => Number(setpoint)))} °F and to nothing else",
        RentedSpaces rented => $"{Number(rented.Spaces)} {Where(rented.Use)} more from {Day(rented.From)} until {Day(rented.To)}",
        MoreHardening hardening => $"{Number(hardening.More)} spaces for hardening off more",
        TriedPrices prices => $"Other prices: {string.Join(", ", Set(prices).Select(price => $"{price.Name} {Number(price.Cents)}¢"))}",
        _ => throw new ArgumentOutOfRangeException(nameof(change), change, "a change without a sentence"),
    };

    /// <summary>The prices that are given, with what each is for.</summary>
    public static IEnumerable<(string Field, string Name, int Cents)> Set(TriedPrices prices) =>
        new (string Field, string Name, int? Cents)[]
        {
            ("dayOffDue", "a tray a day off its due day", prices.DayOffDue),
            ("dayLate", "a tray a day late", prices.DayLate),
            ("degreeOff", "a tray a day a °F off what it likes", prices.DegreeOff),
            ("unplacedTray", "a tray without a place", prices.UnplacedTray),
            ("heatTenDegrees", "a heated space a day ten °F", prices.HeatTenDegrees),
            ("setpointChange", "a change of a setpoint", prices.SetpointChange),
            ("split", "a split", prices.Split),
            ("movedSowDay", "another sow day", prices.MovedSowDay),
            ("movedPlace", "another zone or bench", prices.MovedPlace),
        }.Where(price => price.Cents is not null).Select(price => (price.Field, price.Name, price.Cents.GetValueOrDefault()));

    public static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    public static string Days(int days) => days == 1 ? "1 day" : string.Create(CultureInfo.InvariantCulture, $"{days} days");

    private static string OutOfUse(string what, LocalDate from, LocalDate to, string? why) =>
        $"{what} cannot be used from {Day(from)} until {Day(to)}{(string.IsNullOrWhiteSpace(why) ? "" : $": {why.Trim()}")}";

    private static string Where(PlaceKind use) => use switch
    {
        PlaceKind.Heat => "spaces on heat",
        PlaceKind.Cool => "spaces on a cool bench",
        _ => "spaces on a warm bench",
    };

    private static string Number(IFormattable value) => value.ToString(value is int ? "N0" : "0.#", CultureInfo.InvariantCulture);
}
