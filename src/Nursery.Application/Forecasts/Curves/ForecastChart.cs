using System.Globalization;
using Nursery.Application.Germination.Curves;

namespace Nursery.Application.Forecasts.Curves;

/// <summary>Where everything stands on the drawing of a forecast against its counts.</summary>
/// <param name="Days">Marks of the lower axis, days after sowing.</param>
/// <param name="Percents">Marks of the upright axis, percent of seeds up.</param>
/// <param name="AtSowing">What was expected at sowing.</param>
/// <param name="Now">What is expected now; null before the first count.</param>
/// <param name="Counted">A point a count.</param>
/// <param name="TodayAt">The upright line of today; null when it lies beyond the drawing.</param>
/// <param name="CountLabelAt">Middle of the label beside the last count; null without one.</param>
/// <param name="CountLabel">Its words.</param>
public sealed record ForecastChart(
    CurveSize Size,
    IReadOnlyList<CurveTick> Days,
    IReadOnlyList<CurveTick> Percents,
    ForecastBand AtSowing,
    ForecastBand? Now,
    IReadOnlyList<CurvePoint> Counted,
    double? TodayAt,
    double? CountLabelAt,
    string CountLabel)
{
    private static readonly int[] Steps = [1, 2, 5, 10, 20];
    private const int MostMarks = 10;

    public static ForecastChart Of(EmergenceBands bands, CurveSize size)
    {
        var last = bands.AtSowing[^1].Day;
        var step = Array.Find(Steps, step => last <= step * MostMarks) is var fits and > 0 ? fits : Steps[^1];
        var end = Math.Ceiling(last / step) * step;
        List<double> wanted = [Y(bands.AtSowing[^1].Up.Median)];
        if (bands.Now.Count > 0)
        {
            wanted.Add(Y(bands.Now[^1].Up.Median));
            wanted.Add(Y((double)bands.Counted[^1].Fraction));
        }

        var places = LabelColumn.Spread(wanted, size.LabelHeight, 0, size.PlotBottom + (size.LabelHeight / 2));
        var today = X(bands.AsOfDay);
        return new ForecastChart(
            size,
            [.. Enumerable.Range(0, (int)(end / step) + 1).Select(mark => new CurveTick(X(mark * step), Number(mark * step)))],
            [.. Enumerable.Range(0, 5).Select(mark => new CurveTick(Y(mark / 4d), Number(mark * 25)))],
            Band(bands.AtSowing, "at sowing", places[0]),
            bands.Now.Count == 0 ? null : Band(bands.Now, "now", places[1]),
            [.. bands.Counted.Select(count => new CurvePoint(X(count.Day), Y((double)count.Fraction)))],
            today <= size.PlotRight ? today : null,
            bands.Now.Count == 0 ? null : places[2],
            bands.Counted.Count == 0 ? "" : $"counted {Percent((double)bands.Counted[^1].Fraction)} %");

        double X(double day) => size.Left + (day * (size.PlotRight - size.Left) / end);

        double Y(double share) => size.PlotBottom - (share * (size.PlotBottom - size.Top));

        ForecastBand Band(IReadOnlyList<BandDay> days, string words, double at) => new(
            [.. days.Select(day => new CurvePoint(X(day.Day), Y(day.Up.Median)))],
            [.. days.Select(day => new CurvePoint(X(day.Day), Y(day.Up.High))), .. days.Reverse().Select(day => new CurvePoint(X(day.Day), Y(day.Up.Low)))],
            $"{words} {Percent(days[^1].Up.Median)} % ({Percent(days[^1].Up.Low)} to {Percent(days[^1].Up.High)})",
            at);
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Percent(double share) => (share * 100).ToString("0", CultureInfo.InvariantCulture);
}
