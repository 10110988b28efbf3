using System.Globalization;
using Nursery.Application.Plans;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Plans;

/// <summary>A batch on one run of spaces.</summary>
/// <param name="Words">Its code and spaces, in the bar when it is long enough, else after it.</param>
/// <param name="Variety">As much as has room in the bar after the words.</param>
public sealed record PlanBar(
    string Code, double X, double Y, double Width, string Class, string Title, string Words, double WordsX, string Variety, double VarietyX);

/// <summary>One zone or bench.</summary>
/// <param name="OutOfUse">When it cannot be used.</param>
public sealed record PlanRow(
    string Name, string Below, double Height, IReadOnlyList<PlanBar> Bars, IReadOnlyList<(double X, double Width)> OutOfUse,
    IReadOnlyList<(double X, string Words)> Setpoints);

/// <summary>Where everything on the time line lies, in pixels: in every row as many lines of bars as are needed to read each.</summary>
internal sealed class PlanDrawing
{
    public const double BarHeight = 18;
    public const double HeadHeight = 26;
    private const double Across = 1070;
    private const double Line = 22;
    private const double SetpointLine = 20;
    private const double LeastRow = 50;

    /// <summary>Of the code face at 13 px.</summary>
    private const double LetterWidth = 8.2;

    /// <summary>Of the text face at 13 px; some are wider.</summary>
    private const double VarietyLetter = 7.4;
    private const double Air = 5;
    private const int LeastVariety = 4;

    /// <summary>Narrower weeks leave no bar room for its batch.</summary>
    private const double LeastWeek = 40;
    private const double LabelWidth = 60;
    private readonly PlanView _view;
    private readonly double _week;
    private readonly double _right;

    /// <param name="view">What to draw.</param>
    /// <param name="units">Of the site.</param>
    /// <param name="rows">both, zones or benches.</param>
    /// <param name="weeks">As many as fit across; 0 is the whole season.</param>
    public PlanDrawing(PlanView view, Units units, string rows, int weeks)
    {
        _view = view;
        var all = (view.Days + 6) / 7;
        _week = Math.Max(LeastWeek, Across / (weeks == 0 ? all : Math.Min(weeks, all)));
        _right = _week * all;
        var shown = view.Lines.Where(line => rows == "both" || (line.Kind == PlaceKind.Heat) == (rows == "zones")).ToLookup(line => line.Stays.Count + line.OutOfUse.Count > 0);
        Rows = [.. shown[true].Select(line => Row(line, units))];
        Width = Math.Max(_right, Rows.SelectMany(row => row.Bars).Select(bar => bar.WordsX + (LetterWidth * bar.Words.Length)).DefaultIfEmpty(0).Max()) + 6;
        Unused = [.. shown[false].Select(Name)];
        var every = (int)Math.Ceiling(LabelWidth / _week);
        Marks = [.. Enumerable.Range(0, all).Select(week => (_week * week, week % every == 0 ? PlanWords.Day(view.Start.AddDays(7 * week)) : ""))];
    }

    public double Width { get; }

    public IReadOnlyList<PlanRow> Rows { get; }

    /// <summary>Zones and benches nothing stands on all season.</summary>
    public IReadOnlyList<string> Unused { get; }

    /// <summary>Mondays, with words where there is room for them.</summary>
    public IReadOnlyList<(double X, string Words)> Marks { get; }

    private double X(DateOnly day) => _week * Math.Clamp(day.DayNumber - _view.Start.DayNumber, 0, _view.Days) / 7;

    private PlanRow Row(PlanLine line, Units units)
    {
        var top = line.Setpoints.Count + line.OutOfUse.Count > 0 ? SetpointLine : 3;
        var (bars, ends) = (new List<PlanBar>(), new List<double>());
        foreach (var stay in line.Stays.OrderBy(stay => stay.From).ThenBy(stay => stay.FirstSpace))
        {
            var bar = Bar(line, stay);
            var at = ends.FindIndex(end => end <= bar.X);
            if (at < 0)
            {
                at = ends.Count;
                ends.Add(0);
            }

            ends[at] = Math.Max(bar.X + bar.Width, bar.WordsX + (LetterWidth * bar.Words.Length)) + (2 * Air);
            bars.Add(bar with { Y = top + (Line * at) });
        }

        return new PlanRow(
            Name(line), $"{(line.Bench is { } bench ? $"bench {bench}" : Word(line.Kind))}, {Written.Count(line.Spaces, "space")}",
            Math.Max(LeastRow, top + (Line * ends.Count) + 2), bars, [.. line.OutOfUse.Select(span => (X(span.From), X(span.To) - X(span.From)))],
            [.. line.Setpoints.Select(set => (X(set.From), PlanWords.Degrees(set.SetpointF, units)))]);
    }

    private PlanBar Bar(PlanLine line, LineStay stay)
    {
        var (x, width) = (X(stay.From), Math.Max(3, X(stay.To) - X(stay.From) - 1));
        var words = $"{stay.Code} {new Domain.SpaceRun(stay.FirstSpace, stay.Spaces)}";
        var wide = (LetterWidth * words.Length) + (2 * Air);
        var inside = wide <= width;
        var name = _view.Names.GetValueOrDefault(stay.Code, "");
        var room = inside ? (int)((width - wide - (2 * Air)) / VarietyLetter) : 0;
        return new PlanBar(
            stay.Code, x, 0, width, stay.Stays ? "stands" : Word(line.Kind),
            string.Create(CultureInfo.InvariantCulture, $"{stay.Code} {name}, {Written.Spaces(stay.FirstSpace, stay.Spaces)}, {PlanWords.Day(stay.From)} to {PlanWords.Day(stay.To.AddDays(-1))}{(stay.Stays ? ", stays where it is reserved" : "")}"),
            words, inside ? x + Air : x + width + Air,
            room < LeastVariety ? "" : name.Length <= room ? name : name[..(room - 1)].TrimEnd() + "…", x + wide + Air);
    }

    private static string Name(PlanLine line) => $"{(line.Bench is null ? "Bench" : "Zone")} {line.Code}";

    private static string Word(PlaceKind kind) => kind.ToString().ToLowerInvariant();
}
