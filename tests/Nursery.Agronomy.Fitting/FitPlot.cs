using System.Globalization;
using System.Text;

namespace Nursery.Agronomy.Fitting;

/// <summary>Days of the table, the fitted line, and what is said of each point when it is left out, one small picture a crop.</summary>
public static class FitPlot
{
    private const int Wide = 220;
    private const int High = 150;
    private const int Columns = 4;
    private const double MostDays = 60;

    public static string Svg(IReadOnlyList<CropFit> fits)
    {
        var rows = (fits.Count + Columns - 1) / Columns;
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Columns * Wide} {(rows * High) + 30}\" font-family=\"sans-serif\" font-size=\"10\">\n");
        text.Append("<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
        for (var index = 0; index < fits.Count; index++)
        {
            text.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate({index % Columns * Wide} {index / Columns * High})\">\n");
            Crop(text, fits[index]);
            text.Append("</g>\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"<text x=\"10\" y=\"{(rows * High) + 20}\">days to emergence (logarithmic) over 0–45 °C · dot: printed · line: fitted · cross: said of it when left out</text>\n</svg>\n");
        return text.ToString();
    }

    private static void Crop(StringBuilder text, CropFit fit)
    {
        text.Append(CultureInfo.InvariantCulture, $"<text x=\"34\" y=\"14\" font-weight=\"bold\">{fit.Crop}</text>\n");
        foreach (var days in new[] { 1, 3, 10, 30 })
        {
            text.Append(CultureInfo.InvariantCulture, $"<line x1=\"30\" x2=\"{Wide - 10}\" y1=\"{Y(days):0.0}\" y2=\"{Y(days):0.0}\" stroke=\"#ddd\"/><text x=\"10\" y=\"{Y(days) + 3:0.0}\" fill=\"#666\">{days}</text>\n");
        }

        foreach (var celsius in new[] { 0, 10, 20, 30, 40 })
        {
            text.Append(CultureInfo.InvariantCulture, $"<text x=\"{X(celsius) - 4:0.0}\" y=\"{High - 8}\" fill=\"#666\">{celsius}</text>\n");
        }

        var line = Enumerable.Range(0, 181).Select(step => step / 4d)
            .Select(celsius => (celsius, Days: fit.Rate.DaysAt(celsius)))
            .Where(point => point.Days is <= MostDays)
            .Select(point => string.Create(CultureInfo.InvariantCulture, $"{X(point.celsius):0.0},{Y(point.Days!.Value):0.0}"));
        text.Append(CultureInfo.InvariantCulture, $"<polyline fill=\"none\" stroke=\"#2b6a4b\" stroke-width=\"1.5\" points=\"{string.Join(' ', line)}\"/>\n");
        foreach (var point in fit.LeftOut)
        {
            var (x, y) = (X(point.Celsius), Y(Math.Min(point.WithoutIt, MostDays)));
            text.Append(CultureInfo.InvariantCulture, $"<path d=\"M{x - 3:0.0} {y - 3:0.0}l6 6m0 -6l-6 6\" stroke=\"#b4552d\"/>");
            text.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{x:0.0}\" cy=\"{Y(point.Days):0.0}\" r=\"2.6\" fill=\"#222\"/>\n");
        }
    }

    private static double X(double celsius) => 30 + (celsius / 45 * (Wide - 40));

    private static double Y(double days) => 24 + ((1 - (Math.Log(days) / Math.Log(MostDays))) * (High - 46));
}
