using System.Globalization;
using System.Text;

namespace Nursery.Agronomy.Fitting;

/// <summary>How well the fits do, as a page of docs/agronomy.</summary>
public static class FitReport
{
    public static string Markdown(IReadOnlyList<CropFit> fits)
    {
        var usual = fits.SelectMany(fit => fit.LeftOut.Where(point => point.IsUsual).Select(point => (fit, point))).ToList();
        var edges = fits.SelectMany(fit => fit.LeftOut.Where(point => !point.IsUsual)).ToList();
        var four = usual.Where(item => item.fit.Count >= 4).ToList();
        var text = new StringBuilder("# How well emergence is fitted\n\nWritten by `dotnet run --project tests/Nursery.Agronomy.Fitting`; do not edit.\n\n| measure | value |\n|---|---|\n");
        text.Append(CultureInfo.InvariantCulture, $"| mean error of the points seen, 59–86 °F | {usual.Average(item => item.point.Error):0.00} days |\n");
        text.Append(CultureInfo.InvariantCulture, $"| mean relative error of the points seen, 41 and 95 °F | {edges.Average(point => point.Error / point.Days):P1} |\n");
        text.Append(CultureInfo.InvariantCulture, $"| median error of a point left out, 59–86 °F, crops with 4 points or more | {Median(four):0.00} days |\n");
        text.Append(CultureInfo.InvariantCulture, $"| median error of a point left out, 59–86 °F, all crops | {Median(usual):0.00} days |\n");
        text.Append("\nPoints left out that are missed by more than 2.5 days, crops with 4 points or more:\n\n| crop | °C | printed | said without it |\n|---|---|---|---|\n");
        foreach (var (fit, point) in four.Where(item => item.point.ErrorWithoutIt > 2.5))
        {
            text.Append(CultureInfo.InvariantCulture, $"| {fit.Crop} | {point.Celsius:0} | {point.Days:0} | {point.WithoutIt:0.0} |\n");
        }

        text.Append("\n![Fit and residuals](emergence-fit.svg)\n\n## Parameters\n\nWith 90 % intervals; °C and °C·days. 2 to 5 points do not fix four parameters: the intervals say how little.\n\n| crop | class | points | base | thermal time | optimum | ceiling |\n|---|---|---|---|---|---|---|\n");
        foreach (var fit in fits)
        {
            var rate = fit.Rate;
            text.Append(CultureInfo.InvariantCulture, $"| {fit.Crop} | {fit.Prior.Class} | {fit.Count} | {rate.Base:0.0} ({rate.BaseRange.Low:0.0} to {rate.BaseRange.High:0.0}) ");
            text.Append(CultureInfo.InvariantCulture, $"| {rate.ThermalTime:0} ({rate.ThermalTimeRange.Low:0} to {rate.ThermalTimeRange.High:0}) ");
            text.Append(CultureInfo.InvariantCulture, $"| {rate.Optimum:0.0} ({rate.OptimumRange.Low:0.0} to {rate.OptimumRange.High:0.0}) ");
            text.Append(CultureInfo.InvariantCulture, $"| {rate.Ceiling:0.0} ({rate.CeilingRange.Low:0.0} to {rate.CeilingRange.High:0.0}) |\n");
        }

        return text.ToString();
    }

    public static double Median(IEnumerable<(CropFit Fit, LeftOut Point)> points)
    {
        var errors = points.Select(item => item.Point.ErrorWithoutIt).Order().ToArray();
        return (errors[(errors.Length - 1) / 2] + errors[errors.Length / 2]) / 2;
    }
}
