using System.Globalization;

namespace Nursery.Application.Germination.Curves;

/// <summary>Emergence curves of batches over each other: share of the seeds up by day after sowing, a line a batch. Screens and paper draw
/// the same; here is where everything stands.</summary>
/// <param name="Days">Marks of the lower axis, days after sowing.</param>
/// <param name="Percents">Marks of the upright axis, percent of seeds up.</param>
/// <param name="Lines">As the batches were given.</param>
/// <param name="Levels">Label germination and published minimum.</param>
public sealed record CurveChart(
    CurveSize Size,
    IReadOnlyList<CurveTick> Days,
    IReadOnlyList<CurveTick> Percents,
    IReadOnlyList<CurveLine> Lines,
    IReadOnlyList<CurveLevel> Levels)
{
    private static readonly int[] Steps = [1, 2, 5, 10, 20, 50, 100];

    /// <summary>Lines without a label, for want of room.</summary>
    public int Unlabeled => Lines.Count(line => line.LabelAt is null);

    /// <param name="batches">Those to draw.</param>
    /// <param name="compared">Figures to compare with: words and a fraction 0–1.</param>
    /// <param name="size">Room.</param>
    /// <param name="chosen">The batch that has a label in any case.</param>
    public static CurveChart Of(
        IReadOnlyList<GerminatedBatch> batches, IReadOnlyList<(string Words, decimal Fraction)> compared, CurveSize size, Guid? chosen = null)
    {
        var lastDay = Math.Max(1, batches.SelectMany(batch => batch.Counts.Select(batch.DaysOf)).DefaultIfEmpty(1).Max());
        var step = Array.Find(Steps, step => lastDay <= step * 10) is var fits and > 0 ? fits : Steps[^1];
        var days = (lastDay + step - 1) / step * step;
        var points = batches.Select(batch => (IReadOnlyList<CurvePoint>)
        [
            new CurvePoint(size.Left, size.PlotBottom),
            .. batch.Counts.Select(count => new CurvePoint(X(batch.DaysOf(count)), Y(count.Fraction))),
        ]).ToList();
        var labeled = Labeled(batches, points, size, compared.Count, chosen);
        var wanted = labeled.Select(index => points[index][^1].Y).Concat(compared.Select(level => Y(level.Fraction))).ToList();
        var places = LabelColumn.Spread(wanted, size.LabelHeight, 0, size.PlotBottom + (size.LabelHeight / 2));
        return new CurveChart(
            size,
            [.. Enumerable.Range(0, (days / step) + 1).Select(mark => new CurveTick(X(mark * step), Number(mark * step)))],
            [.. Enumerable.Range(0, 5).Select(mark => new CurveTick(Y(mark / 4m), Number(mark * 25)))],
            [.. batches.Select((batch, index) => new CurveLine(
                batch.Id, $"{batch.Code} {Percent(batch.Fraction)}", points[index],
                labeled.IndexOf(index) is var place and >= 0 ? places[place] : null))],
            [.. compared.Select((level, index) => new CurveLevel(
                $"{level.Words} {Percent(level.Fraction)}", Y(level.Fraction), places[labeled.Count + index]))]);

        double X(int day) => size.Left + (Math.Max(0, day) * (size.PlotRight - size.Left) / days);

        double Y(decimal fraction) => size.PlotBottom - ((double)fraction * (size.PlotBottom - size.Top));
    }

    /// <summary>All when there is room; else the chosen one, the uppermost, the lowest, and others evenly between them.</summary>
    private static List<int> Labeled(
        IReadOnlyList<GerminatedBatch> batches, List<IReadOnlyList<CurvePoint>> points, CurveSize size, int levels, Guid? chosen)
    {
        var room = (int)((size.PlotBottom + (size.LabelHeight / 2)) / size.LabelHeight) - levels;
        var byEnd = Enumerable.Range(0, batches.Count).OrderBy(index => points[index][^1].Y).ToList();
        if (byEnd.Count <= room)
        {
            return byEnd;
        }

        var picked = Enumerable.Range(0, room).Select(place => byEnd[place * (byEnd.Count - 1) / Math.Max(1, room - 1)]).ToList();
        if (byEnd.FindIndex(index => batches[index].Id == chosen) is var at and >= 0 && !picked.Contains(byEnd[at]))
        {
            picked[Math.Clamp(at * room / byEnd.Count, 0, room - 1)] = byEnd[at];
        }

        return picked;
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Percent(decimal fraction) => string.Create(CultureInfo.InvariantCulture, $"{fraction * 100:0} %");
}
