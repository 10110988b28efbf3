using Nursery.Application.Plans;
using Nursery.Domain.Sites;

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
    private const double LetterWidth = 7.2;
    private const double LeastWeek = 18;
    private const double LabelWidth = 52;
    private readonly Proposal _proposal;
    private readonly double _week;

    /// <param name="proposal">Of the season.</param>
    /// <param name="lines">Of the proposal or of today's plan.</param>
    /// <param name="units">Of the site.</param>
    /// <param name="rows">both, zones or benches.</param>
    /// <param name="weeks">As many as fit across; 0 is the whole season.</param>
    public PlanDrawing(Proposal proposal, IReadOnlyList<PlanLine> lines, Units units, string rows, int weeks)
    {
        _proposal = proposal;
        var all = (proposal.Days + 6) / 7;
        _week = Math.Max(LeastWeek, Across / (weeks == 0 ? all : Math.Min(weeks, all)));
        Width = Left + (_week * all) + 6;
        var made = new List<PlanRow>();
        Height = Top;
        foreach (var line in lines.Where(line => rows == "both" || (line.Kind == PlaceKind.Heat) == (rows == "zones")))
        {
            var height = Math.Clamp(SpaceHeight * line.Spaces, LeastFilledRow, MostRow);
            var bars = line.Stays.Select(stay => Bar(line, stay, Height, height)).ToList();
            height = bars.Count == 0 ? LeastRow : height;
            made.Add(new PlanRow(
                line.Bench is null ? $"Bench {line.Code}" : $"Zone {line.Code}",
                line.Bench is null ? $"{Word(line.Kind)}, {line.Spaces}" : $"bench {line.Bench}, {line.Spaces}",
                Height, height, bars, [.. line.Setpoints.Select(set => (X(set.From), PlanWords.Degrees(set.SetpointF, units)))]));
            Height += height;
        }

        Rows = made;
        Height += 2;
        var every = (int)Math.Ceiling(LabelWidth / _week);
        Marks = [.. Enumerable.Range(0, all).Where(week => week % every == 0).Select(week => (X(proposal.Start.AddDays(7 * week)), PlanWords.Day(proposal.Start.AddDays(7 * week))))];
    }

    public double Width { get; }

    public double Height { get; private set; }

    public IReadOnlyList<PlanRow> Rows { get; }

    public IReadOnlyList<(double X, string Words)> Marks { get; }

    private double X(DateOnly day) => Left + (_week * Math.Clamp(day.DayNumber - _proposal.Start.DayNumber, 0, _proposal.Days) / 7);

    private PlanBar Bar(PlanLine line, LineStay stay, double y, double rowHeight)
    {
        var (x, width) = (X(stay.From), Math.Max(2, X(stay.To) - X(stay.From) - 1));
        var (top, height) = (y + (rowHeight * (stay.FirstSpace - 1) / line.Spaces), Math.Max(2.5, (rowHeight * stay.Spaces / line.Spaces) - 1));
        var name = stay.Stays ? "stands already" : _proposal.Names.GetValueOrDefault(stay.Code, "");
        return new PlanBar(
            x, top, width, height, stay.Stays ? "stands" : Word(line.Kind),
            $"{stay.Code} {name}, {Written.Spaces(stay.FirstSpace, stay.Spaces)}, {PlanWords.Day(stay.From)} to {PlanWords.Day(stay.To)}",
            height >= LabelHeight && width >= LetterWidth * stay.Code.Length ? stay.Code : null);
    }

    private static string Word(PlaceKind kind) => kind.ToString().ToLowerInvariant();
}
