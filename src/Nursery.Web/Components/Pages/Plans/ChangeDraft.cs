using System.Globalization;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Plans;

/// <summary>What can happen to a season or be tried out on it.</summary>
public enum ChangeKind
{
    BatchSlips,
    BenchOut,
    ZoneOut,
    OrderAdded,
    BatchCancelled,
    ZoneSetpoints,
    SpacesRented,
    MoreHardening,
    Price,
}

/// <summary>One of the planner's prices, as it is chosen.</summary>
public enum PriceKind
{
    DayOffDue,
    DayLate,
    DegreeOff,
    UnplacedTray,
    HeatTenDegrees,
    SetpointChange,
    Split,
    MovedSowDay,
    MovedPlace,
}

/// <summary>A change that is being written down. Only what its kind asks for is read.</summary>
public sealed class ChangeDraft(DateOnly today)
{
    private const int UsualDays = 7;

    /// <summary>What really happens is told first; the others can only be tried out.</summary>
    private static readonly ChangeKind[] Happen = [ChangeKind.BatchSlips, ChangeKind.BenchOut, ChangeKind.ZoneOut];

    public ChangeKind Kind { get; set; } = ChangeKind.BenchOut;

    /// <summary>Code of the batch, bench, zone or variety.</summary>
    public string Code { get; set; } = "";

    public int Days { get; set; } = UsualDays;

    public DateOnly From { get; set; } = today;

    public DateOnly To { get; set; } = today.AddDays(UsualDays);

    public string Why { get; set; } = "";

    public int Plants { get; set; } = 500;

    public int Spaces { get; set; } = 20;

    public PlaceKind Use { get; set; } = PlaceKind.Warm;

    /// <summary>Degrees of the site, with ; between.</summary>
    public string Setpoints { get; set; } = "";

    public PriceKind Price { get; set; } = PriceKind.DayLate;

    /// <summary>In the money of the price list, not cents.</summary>
    public decimal Amount { get; set; } = 1;

    public bool HasDays => Kind is ChangeKind.BenchOut or ChangeKind.ZoneOut or ChangeKind.SpacesRented;

    public static IReadOnlyList<ChangeKind> Kinds(PlanAim aim) => aim == PlanAim.Keep ? Happen : Enum.GetValues<ChangeKind>();

    public static string Word(ChangeKind kind) => kind switch
    {
        ChangeKind.BatchSlips => "a batch comes later or sooner",
        ChangeKind.BenchOut => "a bench is out of use",
        ChangeKind.ZoneOut => "a heat zone is broken",
        ChangeKind.OrderAdded => "one more order",
        ChangeKind.BatchCancelled => "a batch left out",
        ChangeKind.ZoneSetpoints => "other setpoints for a heat zone",
        ChangeKind.SpacesRented => "spaces rented",
        ChangeKind.MoreHardening => "more spaces for hardening off",
        ChangeKind.Price => "another price",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a change without a word"),
    };

    public static string Word(PriceKind price) => price switch
    {
        PriceKind.DayOffDue => "a tray, a day off its due day",
        PriceKind.DayLate => "a tray, a day late",
        PriceKind.DegreeOff => "a tray, a day, a °F off what it likes",
        PriceKind.UnplacedTray => "a tray without a place",
        PriceKind.HeatTenDegrees => "a heated space, a day, ten °F",
        PriceKind.SetpointChange => "a change of a setpoint",
        PriceKind.Split => "a split batch",
        PriceKind.MovedSowDay => "another sowing day",
        PriceKind.MovedPlace => "another zone or bench",
        _ => throw new ArgumentOutOfRangeException(nameof(price), price, "a price without a word"),
    };

    /// <returns>Null when what it asks for is not filled in; whoever computes looks at the values.</returns>
    public PlanEvent? Made(Units units)
    {
        var (code, why) = (Code.Trim(), Why.Trim().Length == 0 ? null : Why.Trim());
        var (from, to) = (LocalDate.FromDateOnly(From), LocalDate.FromDateOnly(To));
        return Kind switch
        {
            ChangeKind.SpacesRented => new RentedSpaces(Use, Spaces, from, to),
            ChangeKind.MoreHardening => new MoreHardening(Spaces),
            ChangeKind.Price => PriceOf((int)Math.Round(Amount * 100)),
            _ when code.Length == 0 => null,
            ChangeKind.BatchSlips => new SlippedBatch(code, Days),
            ChangeKind.BenchOut => new BenchOut(code, from, to, why),
            ChangeKind.ZoneOut => new ZoneOut(code, from, to, why),
            ChangeKind.OrderAdded => new AddedOrder(code, Plants, from),
            ChangeKind.BatchCancelled => new CancelledBatch(code),
            ChangeKind.ZoneSetpoints => SetpointsF(units) is { Count: > 0 } setpoints ? new TriedSetpoints(code, setpoints) : null,
            _ => throw new InvalidOperationException($"{Kind} is no change"),
        };
    }

    private List<double> SetpointsF(Units units)
    {
        var numbers = Setpoints.Split([';', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(part => decimal.TryParse(part, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) ? number : (decimal?)null).ToList();
        return numbers.Contains(null) ? [] : [.. numbers.Select(number => units == Units.Metric
            ? (double)Math.Round(new Temperature(number!.Value).Fahrenheit, 1)
            : (double)number!.Value)];
    }

    private TriedPrices PriceOf(int cents) => Price switch
    {
        PriceKind.DayOffDue => new(DayOffDue: cents),
        PriceKind.DayLate => new(DayLate: cents),
        PriceKind.DegreeOff => new(DegreeOff: cents),
        PriceKind.UnplacedTray => new(UnplacedTray: cents),
        PriceKind.HeatTenDegrees => new(HeatTenDegrees: cents),
        PriceKind.SetpointChange => new(SetpointChange: cents),
        PriceKind.Split => new(Split: cents),
        PriceKind.MovedSowDay => new(MovedSowDay: cents),
        PriceKind.MovedPlace => new(MovedPlace: cents),
        _ => throw new InvalidOperationException($"{Price} is no price"),
    };
}
