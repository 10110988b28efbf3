using Nursery.Application.Plans;
using Nursery.Domain.Sites;
using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Web.Components.Pages.Plans;

/// <summary>A batch on one run of spaces.</summary>
/// <param name="Words">Its code, where there is room for it.</param>
internal sealed record PlanBar(double X, double Y, double Width, double Height, string Class, string Title, string? Words);

/// <summary>One zone or bench.</summary>
internal sealed record PlanRow(
    string Name, string Below, double Y, double Height, IReadOnlyList<PlanBar> Bars, IReadOnlyList<(double X, string Words)> Setpoints);

/// <summary>Where everything on the time line lies, in pixels.</summary>
internal sealed class PlanDrawing
{
    public const double Top = 24;
    private const double Left = 130;
    private const double Across = 1080;

    /// <summary>A space is this high, so that a few trays can be told apart, within what a row may have.</summary>
    private const double SpaceHeight = 2;
    private const double LeastRow = 44;
    private const double LeastFilledRow = 60;
    private const double MostRow = 180;
    private const double LabelHeight = 10;
    private const double LeastWeek = 18;
    private const double LabelWidth = 52;
    private readonly Problem _problem;
    private readonly Plan _plan;
    private readonly Proposal _proposal;
    private readonly double _week;

    /// <param name="proposal">Of the season.</param>
    /// <param name="plan">The proposal or today's plan.</param>
    /// <param name="units">Of the site.</param>
    /// <param name="rows">both, zones or benches.</param>
    /// <param name="weeks">As many as fit across; 0 is the whole season.</param>
    public PlanDrawing(Proposal proposal, Plan plan, Units units, string rows, int weeks)
    {
        (_proposal, _problem, _plan) = (proposal, proposal.Problem, plan);
        var all = (_problem.Days + 6) / 7;
        _week = Math.Max(LeastWeek, Across / (weeks == 0 ? all : Math.Min(weeks, all)));
        Width = Left + (_week * all) + 6;
        var made = new List<PlanRow>();
        Height = Top;
        foreach (var zone in rows == "benches" ? [] : _problem.Zones)
        {
            Add($"Zone {zone.Id}", $"bench {zone.Bench}, {zone.Spaces}", zone.Id, zone.Spaces, [.. Setpoints(zone.Id, units)]);
        }

        foreach (var bench in rows == "zones" ? [] : _problem.Benches.Where(bench => bench.Use != BenchUse.Heat))
        {
            Add($"Bench {bench.Id}", $"{bench.Use.ToString().ToLowerInvariant()}, {bench.Spaces}", bench.Id, bench.Spaces, []);
        }

        Rows = made;
        Height += 2;
        var every = (int)Math.Ceiling(LabelWidth / _week);
        Marks = [.. Enumerable.Range(0, all).Where(week => week % every == 0).Select(week => (X(_problem.DateOf(7 * week)), PlanWords.Day(_problem.DateOf(7 * week))))];

        void Add(string name, string below, string where, int spaces, IReadOnlyList<(double X, string Words)> setpoints)
        {
            var height = Math.Clamp(SpaceHeight * spaces, LeastFilledRow, MostRow);
            var bars = Bars(where, spaces, Height, height).ToList();
            height = bars.Count == 0 ? LeastRow : height;
            made.Add(new PlanRow(name, below, Height, height, bars, setpoints));
            Height += height;
        }
    }

    public double Width { get; }

    public double Height { get; private set; }

    public IReadOnlyList<PlanRow> Rows { get; }

    public IReadOnlyList<(double X, string Words)> Marks { get; }

    private double X(DateOnly day) => Left + (_week * Math.Clamp(_problem.DayOf(day), 0, _problem.Days) / 7);

    private IEnumerable<PlanBar> Bars(string where, int spaces, double y, double rowHeight)
    {
        foreach (var stay in (_problem.Frozen ?? []).Where(stay => stay.Where == where))
        {
            yield return Bar(stay.From, stay.To, stay.FirstSpace, stay.Spaces, "stands", stay.Batch ?? "trays", "stands already");
        }

        foreach (var batch in _plan.Batches)
        {
            var name = _proposal.Names.GetValueOrDefault(batch.Id, "");
            foreach (var stay in batch.Heat.Where(stay => stay.Zone == where))
            {
                yield return Bar(batch.SowOn, batch.MoveOffOn, stay.FirstSpace, stay.Spaces, "heat", batch.Id, name);
            }

            foreach (var stay in batch.Benches.Where(stay => stay.Bench == where))
            {
                yield return Bar(batch.MoveOffOn, batch.HardenOn, stay.FirstSpaceAfter, stay.SpacesAfter, batch.Band == BenchUse.Warm ? "warm" : "cool", batch.Id, name);
            }
        }

        PlanBar Bar(DateOnly from, DateOnly to, int first, int count, string kind, string code, string name)
        {
            var (x, width) = (X(from), Math.Max(2, X(to) - X(from) - 1));
            var (top, height) = (y + (rowHeight * (first - 1) / spaces), Math.Max(2.5, (rowHeight * count / spaces) - 1));
            return new PlanBar(
                x, top, width, height, kind, $"{code} {name}, {Written.Spaces(first, count)}, {PlanWords.Day(from)} to {PlanWords.Day(to)}",
                height >= LabelHeight && width >= 7.2 * code.Length ? code : null);
        }
    }

    /// <summary>Where a zone begins to be set to something and trays lie on it.</summary>
    private IEnumerable<(double X, string Words)> Setpoints(string zone, Units units) =>
        from span in _plan.Zones.FirstOrDefault(path => path.Zone == zone)?.Setpoints ?? []
        let setpoint = span.SetpointF
        where setpoint.HasValue
        select (X(span.From), PlanWords.Degrees(setpoint.GetValueOrDefault(), units));
}
