using Nursery.Planning.Problems;

namespace Nursery.Planning.Search;

/// <summary>A problem in flat arrays. An area is a zone (the first <see cref="Zones"/>) or an unheated bench (after them); a level
/// is off (0) or one of the setpoints in rising order.</summary>
internal sealed class SeasonModel
{
    public readonly Problem Problem;
    public readonly Prices Prices;
    public readonly int Days;
    public readonly int Weeks;
    public readonly int Zones;
    public readonly int Areas;
    public readonly int Levels;
    public readonly double[] LevelF;
    public readonly string[] AreaId;
    public readonly int[] Spaces;
    public readonly int[] WarmBenches;
    public readonly int[] CoolBenches;
    public readonly int HardeningSpaces;
    private readonly int _warmSpaces;
    private readonly int _coolSpaces;
    public readonly int HardeningDays;
    public readonly IReadOnlyList<Batch> Batches;
    public readonly int[] Trays;
    public readonly int[] Before;
    public readonly int[] After;
    public readonly int[] Due;
    public readonly int[] NowSow;
    public readonly int[] NowZone;
    public readonly int[] NowBench;
    public readonly ModeTable Modes;

    /// <summary>Heat of a zone on a level for a week, by zone × Levels + level.</summary>
    public readonly int[] Heat;

    /// <summary>Bits of the levels a zone may have in a week, by zone × Weeks + week.</summary>
    public readonly uint[] Allowed;

    /// <summary>Level of the week before the season, -1 when it does not matter.</summary>
    public readonly int[] LevelBefore;

    /// <param name="batches">Those that passed the check: every crop known, trays and spaces 1 or more.</param>
    public SeasonModel(Problem problem, IReadOnlyList<Batch> batches)
    {
        Problem = problem;
        Prices = problem.Prices ?? Prices.Usual;
        Days = problem.Days;
        Weeks = (Days + 6) / 7;
        var unheated = problem.Benches.Where(bench => bench.Use is BenchUse.Warm or BenchUse.Cool).ToList();
        Zones = problem.Zones.Count;
        Areas = Zones + unheated.Count;
        AreaId = [.. problem.Zones.Select(zone => zone.Id), .. unheated.Select(bench => bench.Id)];
        Spaces = [.. problem.Zones.Select(zone => zone.Spaces), .. unheated.Select(bench => bench.Spaces)];
        WarmBenches = OfUse(BenchUse.Warm);
        CoolBenches = OfUse(BenchUse.Cool);
        (_warmSpaces, _coolSpaces) = (WarmBenches.Sum(bench => Spaces[bench]), CoolBenches.Sum(bench => Spaces[bench]));
        HardeningSpaces = problem.HardeningSpaces;
        HardeningDays = problem.HardeningDays;
        LevelF = [double.NaN, .. problem.Zones.SelectMany(zone => zone.SetpointsF)
            .Concat((problem.Setpoints ?? []).Where(span => span.SetpointF != null).Select(span => span.SetpointF!.Value)).Distinct().Order()];
        Levels = LevelF.Length;
        LevelBefore = [.. problem.Zones.Select(zone => zone.BeforeF is { } before ? Array.IndexOf(LevelF, before) : -1)];
        Heat = new int[Math.Max(1, Zones * Levels)];
        for (var zone = 0; zone < Zones; zone++)
        {
            for (var level = 1; level < Levels; level++)
            {
                Heat[(zone * Levels) + level] = WeekOfHeat(Prices, Spaces[zone], LevelF[level]);
            }
        }

        Allowed = new uint[Math.Max(1, Zones * Weeks)];
        AllowSetpoints();
        Batches = batches;
        var crops = problem.Crops.ToDictionary(crop => crop.Id);
        Trays = [.. batches.Select(batch => batch.Trays)];
        Before = [.. batches.Select(batch => batch.SpacesBefore)];
        After = [.. batches.Select(batch => batch.SpacesSpaced(crops[batch.Crop]))];
        Due = [.. batches.Select(batch => problem.DayOf(batch.Due))];
        NowSow = [.. batches.Select(batch => batch.Now is { } now ? problem.DayOf(now.SowOn) : -1)];
        NowZone = [.. batches.Select(batch => Array.IndexOf(AreaId, batch.Now?.Zone ?? "", 0, Zones))];
        NowBench = [.. batches.Select(batch => Array.IndexOf(AreaId, batch.Now?.Bench ?? "", Zones))];
        Modes = new ModeTable(problem, batches, crops, LevelF, [false, WarmBenches.Length > 0, CoolBenches.Length > 0, false]);

        int[] OfUse(BenchUse use) =>
            [.. unheated.Select((bench, index) => (bench, index)).Where(pair => pair.bench.Use == use).Select(pair => Zones + pair.index)];
    }

    /// <summary>Cents for a zone on a setpoint for a week, rounded down.</summary>
    public static int WeekOfHeat(Prices prices, int spaces, double setpointF) =>
        (int)Math.Max(0, Math.Floor((prices.HeatTenDegrees * spaces * 7 * (setpointF - prices.HeatFreeF) / 10) + 1e-9));

    public int BandSpaces(BenchUse band) => band == BenchUse.Warm ? _warmSpaces : _coolSpaces;

    public int UnplacedCost(int batch) => Trays[batch] * Prices.UnplacedTray;

    private void AllowSetpoints()
    {
        for (var zone = 0; zone < Zones; zone++)
        {
            var own = 1u;
            foreach (var setpoint in Problem.Zones[zone].SetpointsF)
            {
                own |= 1u << Array.IndexOf(LevelF, setpoint);
            }

            Array.Fill(Allowed, own, zone * Weeks, Weeks);
        }

        foreach (var span in Problem.Setpoints ?? [])
        {
            var level = span.SetpointF is { } setpoint ? Array.IndexOf(LevelF, setpoint) : 0;
            ForWeeks(span.Zone, span.From, span.To, at => Allowed[at] = 1u << level);
        }

        foreach (var stay in (Problem.Frozen ?? []).Where(stay => stay.MinF != null || stay.MaxF != null))
        {
            var suits = 0u;
            for (var level = 1; level < Levels; level++)
            {
                suits |= LevelF[level] >= (stay.MinF ?? double.MinValue) && LevelF[level] <= (stay.MaxF ?? double.MaxValue) ? 1u << level : 0;
            }

            ForWeeks(stay.Where, stay.From, stay.To, at => Allowed[at] = (Allowed[at] & suits) != 0 ? Allowed[at] & suits : Allowed[at]);
        }
    }

    private void ForWeeks(string zoneId, DateOnly from, DateOnly to, Action<int> act)
    {
        var zone = Array.IndexOf(AreaId, zoneId, 0, Zones);
        if (zone < 0)
        {
            return;
        }

        var first = Math.Max(0, Problem.DayOf(from));
        var last = Math.Min(Days, Problem.DayOf(to)) - 1;
        for (var week = first / 7; week <= last / 7 && last >= first; week++)
        {
            act((zone * Weeks) + week);
        }
    }
}
