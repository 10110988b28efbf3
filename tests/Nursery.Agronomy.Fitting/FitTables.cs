using System.Globalization;
using System.Text;

namespace Nursery.Agronomy.Fitting;

/// <summary>The two tables the library carries, as text; the same input gives the same bytes.</summary>
public static class FitTables
{
    public static string Defaults(IReadOnlyList<CropFit> fits)
    {
        var text = new StringBuilder(
            "crop,class,slow,points,base_c,base_low_c,base_high_c,thermal_time_c_days,thermal_low,thermal_high,optimum_c,optimum_low_c,optimum_high_c,ceiling_c,ceiling_low_c,ceiling_high_c\n");
        foreach (var fit in fits)
        {
            var rate = fit.Rate;
            text.Append(CultureInfo.InvariantCulture, $"\"{fit.Crop}\",{fit.Prior.Class},{(CropPrior.IsSlow(fit.Crop) ? 1 : 0)},{fit.Count},");
            text.Append(CultureInfo.InvariantCulture, $"{rate.Base:0.0},{rate.BaseRange.Low:0.0},{rate.BaseRange.High:0.0},");
            text.Append(CultureInfo.InvariantCulture, $"{rate.ThermalTime:0.0},{rate.ThermalTimeRange.Low:0.0},{rate.ThermalTimeRange.High:0.0},");
            text.Append(CultureInfo.InvariantCulture, $"{rate.Optimum:0.0},{rate.OptimumRange.Low:0.0},{rate.OptimumRange.High:0.0},");
            text.Append(CultureInfo.InvariantCulture, $"{rate.Ceiling:0.0},{rate.CeilingRange.Low:0.0},{rate.CeilingRange.High:0.0}\n");
        }

        return text.ToString();
    }

    /// <summary>What was printed: days (a number, NG or NT) and percent normal seedlings by temperature.</summary>
    public static string Printed(IReadOnlyList<CropFit> fits)
    {
        var text = new StringBuilder("crop,celsius,days,normal_percent\n");
        foreach (var fit in fits)
        {
            foreach (var point in fit.Points)
            {
                var days = point.Days is { } number ? number.ToString("0", CultureInfo.InvariantCulture) : point.NoGermination ? "NG" : "NT";
                text.Append(CultureInfo.InvariantCulture, $"\"{fit.Crop}\",{point.Celsius:0},{days},{point.Normal:0}\n");
            }
        }

        return text.ToString();
    }
}
