using System.Globalization;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Checks;

/// <summary>Looks at every value of a problem. What is not allowed is left out with a remark, so that the rest is still planned.</summary>
public sealed class ProblemCheck
{
    public const int MostSpaces = 5000;
    private const int MostDays = 730;
    private const int MostHardening = 30000;
    private const int MostSetpoints = 30;
    private const int MostCents = 1_000_000;
    private readonly Problem _problem;
    private readonly List<Remark> _remarks = [];
    private readonly List<Unplaced> _setAside = [];

    private ProblemCheck(Problem problem)
    {
        _problem = problem;
    }

    /// <exception cref="ProblemUnreadable">Start or length of the season make no season at all.</exception>
    public static CheckedProblem Of(Problem problem)
    {
        if (problem.Days is < 7 or > MostDays)
        {
            throw new ProblemUnreadable($"days: {problem.Days} is not allowed; 7 to {MostDays} is.");
        }

        if (problem.Start.DayNumber + MostDays > DateOnly.MaxValue.DayNumber)
        {
            throw new ProblemUnreadable($"start: {Text(problem.Start)} is not allowed; a day before 9990 is.");
        }

        return new ProblemCheck(problem).Check();
    }

    private CheckedProblem Check()
    {
        var houses = Once(_problem.Houses, "houses", house => house.Id);
        var benches = Once(_problem.Benches, "benches", bench => bench.Id).Where(IsBench).Select(Spans).ToList();
        var zones = Zones(benches);
        var crops = Once(_problem.Crops, "crops", crop => crop.Id).Where(IsCrop).Select(Rows).ToList();
        var usable = _problem with
        {
            Houses = houses,
            Benches = benches,
            Zones = zones,
            Crops = crops,
            Prices = PricesOf(_problem.Prices ?? Prices.Usual),
            HardeningDays = In("hardeningDays", _problem.HardeningDays, 0, 60, 7),
            HardeningSpaces = In("hardeningSpaces", _problem.HardeningSpaces, 0, MostHardening, _problem.HardeningSpaces > 0 ? MostHardening : 0),
            Frozen = [.. (_problem.Frozen ?? []).Where((stay, index) => IsFrozen(stay, index, benches, zones))],
            Setpoints = [.. (_problem.Setpoints ?? []).Where((span, index) => IsSetpoint(span, index, zones))],
        };
        var batches = new BatchCheck(usable, _remarks, _setAside).Usable(Once(_problem.Batches, "batches", batch => batch.Id));
        return new CheckedProblem(usable with { Batches = batches }, _remarks, _setAside);
    }

    private List<T> Once<T>(IReadOnlyList<T>? all, string list, Func<T, string> id)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var kept = new List<T>();
        foreach (var one in all ?? [])
        {
            if (string.IsNullOrWhiteSpace(id(one)) || !seen.Add(id(one)))
            {
                Say($"{list}.id", $"\"{id(one)}\"", "each id once, not empty; the second one is left out");
            }
            else
            {
                kept.Add(one);
            }
        }

        return kept;
    }

    private bool IsBench(Bench bench)
    {
        var field = $"benches[{bench.Id}]";
        if (bench.Spaces is < 1 or > MostSpaces)
        {
            Say($"{field}.spaces", Text(bench.Spaces), $"1 to {MostSpaces} is; the bench is left out");
            return false;
        }

        if (bench.Use is not (BenchUse.Heat or BenchUse.Warm or BenchUse.Cool))
        {
            Say($"{field}.use", bench.Use.ToString(), "Heat, Warm or Cool is; the bench is left out");
            return false;
        }

        return true;
    }

    private Bench Spans(Bench bench) => bench with { OutOfUse = Spans(bench.OutOfUse, $"benches[{bench.Id}]") };

    private List<OutOfUse>? Spans(IReadOnlyList<OutOfUse>? spans, string field) => spans?.Where(span =>
    {
        var right = span.From < span.To;
        if (!right)
        {
            Say($"{field}.outOfUse", $"{Text(span.From)} to {Text(span.To)}", "a first day before the first usable day; the span is left out");
        }

        return right;
    }).ToList();

    private List<HeatZone> Zones(List<Bench> benches)
    {
        var kept = new List<HeatZone>();
        var setpoints = new HashSet<double>();
        foreach (var zone in Once(_problem.Zones, "zones", zone => zone.Id))
        {
            var field = $"zones[{zone.Id}]";
            if (benches.FirstOrDefault(bench => bench.Id == zone.Bench) is not { Use: BenchUse.Heat } bench)
            {
                Say($"{field}.bench", $"\"{zone.Bench}\"", "a heated bench of the problem is; the zone is left out");
            }
            else if (benches.Exists(bench => bench.Id == zone.Id && bench.Use != BenchUse.Heat))
            {
                Say($"{field}.id", $"\"{zone.Id}\"", "an id that no bench has is; the zone is left out");
            }
            else if (zone.Spaces < 1 || zone.FirstSpace < 1 || zone.FirstSpace + (long)zone.Spaces - 1 > bench.Spaces)
            {
                Say($"{field}.spaces", $"{zone.Spaces} from space {zone.FirstSpace}", $"a run within the bench's {bench.Spaces} is; the zone is left out");
            }
            else if (kept.Exists(other => other.Bench == zone.Bench && other.FirstSpace < zone.FirstSpace + zone.Spaces && zone.FirstSpace < other.FirstSpace + other.Spaces))
            {
                Say($"{field}.firstSpace", Text(zone.FirstSpace), "spaces that no other zone has are; the zone is left out");
            }
            else
            {
                var allowed = zone.SetpointsF.Where(setpoint => IsSetpointF(setpoint, field, setpoints)).Distinct().ToList();
                kept.Add(zone with { SetpointsF = allowed, OutOfUse = Spans(zone.OutOfUse, field) });
            }
        }

        return kept;
    }

    private bool IsSetpointF(double setpoint, string field, HashSet<double> all)
    {
        if (!(setpoint is >= 32 and <= 120))
        {
            Say($"{field}.setpointsF", Text(setpoint), "32 to 120 °F is; the setpoint is left out");
            return false;
        }

        if (!all.Contains(setpoint) && all.Count == MostSetpoints)
        {
            Say($"{field}.setpointsF", Text(setpoint), $"{MostSetpoints} different setpoints in all are; the setpoint is left out");
            return false;
        }

        all.Add(setpoint);
        return true;
    }

    private bool IsCrop(Crop crop)
    {
        var field = $"crops[{crop.Id}]";
        if (!(crop.MinF <= crop.BestF && crop.BestF <= crop.MaxF))
        {
            Say($"{field}.bestF", Text(crop.BestF), $"{Text(crop.MinF)} to {Text(crop.MaxF)} (minF to maxF) is; the crop is left out");
            return false;
        }

        if (!(crop.FootprintFactor is >= 1 and <= 10))
        {
            Say($"{field}.footprintFactor", Text(crop.FootprintFactor), "1 to 10 is; the crop is left out");
            return false;
        }

        if (crop.WarmDays is < 1 or > MostDays || crop.CoolDays is < 1 or > MostDays)
        {
            Say($"{field}.{(crop.WarmDays is < 1 or > MostDays ? "warmDays" : "coolDays")}", Text(crop.WarmDays is < 1 or > MostDays ? crop.WarmDays.Value : crop.CoolDays!.Value), $"1 to {MostDays} is; the crop is left out");
            return false;
        }

        return true;
    }

    private Crop Rows(Crop crop) => crop with
    {
        Table =
        [
            .. crop.Table.Where(row =>
            {
                var field = $"crops[{crop.Id}].table";
                if (!(row.SetpointF >= crop.MinF && row.SetpointF <= crop.MaxF))
                {
                    Say($"{field}.setpointF", Text(row.SetpointF), $"{Text(crop.MinF)} to {Text(crop.MaxF)} °F, what the crop accepts, is; the row is left out");
                    return false;
                }

                if (!(row.ProgressPerDay is > 0.001 and <= 1))
                {
                    Say($"{field}.progressPerDay", Text(row.ProgressPerDay), "above 0.001 to 1 is; the row is left out");
                    return false;
                }

                return true;
            }).DistinctBy(row => row.SetpointF),
        ],
    };

    private Prices PricesOf(Prices prices) => prices with
    {
        DayOffDue = Cents(nameof(prices.DayOffDue), prices.DayOffDue, Prices.Usual.DayOffDue),
        DayLate = Cents(nameof(prices.DayLate), prices.DayLate, Prices.Usual.DayLate),
        DegreeOff = Cents(nameof(prices.DegreeOff), prices.DegreeOff, Prices.Usual.DegreeOff),
        UnplacedTray = Cents(nameof(prices.UnplacedTray), prices.UnplacedTray, Prices.Usual.UnplacedTray),
        HeatTenDegrees = Cents(nameof(prices.HeatTenDegrees), prices.HeatTenDegrees, Prices.Usual.HeatTenDegrees),
        SetpointChange = Cents(nameof(prices.SetpointChange), prices.SetpointChange, Prices.Usual.SetpointChange),
        Split = Cents(nameof(prices.Split), prices.Split, Prices.Usual.Split),
        MovedSowDay = Cents(nameof(prices.MovedSowDay), prices.MovedSowDay, Prices.Usual.MovedSowDay),
        MovedPlace = Cents(nameof(prices.MovedPlace), prices.MovedPlace, Prices.Usual.MovedPlace),
        OtherHouse = Cents(nameof(prices.OtherHouse), prices.OtherHouse, Prices.Usual.OtherHouse),
        HeatFreeF = double.IsFinite(prices.HeatFreeF) ? prices.HeatFreeF : Prices.Usual.HeatFreeF,
    };

    private int Cents(string name, int value, int usual) =>
        In($"prices.{char.ToLowerInvariant(name[0])}{name[1..]}", value, 0, MostCents, usual);

    private int In(string field, int value, int least, int most, int otherwise)
    {
        if (value >= least && value <= most)
        {
            return value;
        }

        Say(field, Text(value), $"{least} to {most} is; {otherwise} is taken");
        return otherwise;
    }

    private bool IsFrozen(FrozenStay stay, int index, List<Bench> benches, List<HeatZone> zones)
    {
        var field = $"frozen[{index}]";
        var spaces = stay.Where == FrozenWhere.Hardening ? MostHardening
            : zones.Find(zone => zone.Id == stay.Where)?.Spaces
                ?? benches.Find(bench => bench.Id == stay.Where && bench.Use != BenchUse.Heat)?.Spaces ?? 0;
        if (spaces == 0)
        {
            Say($"{field}.where", $"\"{stay.Where}\"", "a zone, an unheated bench or \"hardening\" is; the stay is left out");
            return false;
        }

        if (stay.Spaces < 1 || stay.From >= stay.To || (stay.Where != FrozenWhere.Hardening && (stay.FirstSpace < 1 || stay.FirstSpace + (long)stay.Spaces - 1 > spaces)))
        {
            Say($"{field}.spaces", $"{stay.Spaces} from space {stay.FirstSpace}, {Text(stay.From)} to {Text(stay.To)}", $"a run within its {spaces} spaces over one day or more is; the stay is left out");
            return false;
        }

        return true;
    }

    private bool IsSetpoint(FrozenSetpoint span, int index, List<HeatZone> zones)
    {
        var field = $"setpoints[{index}]";
        var zone = zones.Find(zone => zone.Id == span.Zone);
        if (zone is null)
        {
            Say($"{field}.zone", $"\"{span.Zone}\"", "a zone of the problem is; the span is left out");
            return false;
        }

        if (span.From >= span.To || (span.SetpointF is { } setpoint && !zone.SetpointsF.Contains(setpoint)))
        {
            Say($"{field}.setpointF", span.SetpointF is { } value ? Text(value) : "off", "one of the zone's setpoints over one day or more is; the span is left out");
            return false;
        }

        return true;
    }

    private void Say(string field, string value, string allowed) => _remarks.Add(new Remark(field, value, allowed));

    internal static string Text(IFormattable value) =>
        value is DateOnly day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : value.ToString(null, CultureInfo.InvariantCulture);
}
