namespace Nursery.Agronomy.Fitting;

/// <summary>A crop's fit with what it says of the points it saw, and of each point when that was left out.</summary>
public sealed record CropFit(string Crop, CropPrior Prior, RateFit Rate, IReadOnlyList<DaysPoint> Points, IReadOnlyList<LeftOut> LeftOut)
{
    private const double MostDays = 999;

    public int Count => LeftOut.Count;

    public static IReadOnlyList<CropFit> All(string folder) => [.. DaysTable.Read(folder).Select(crop => Of(crop.Crop, crop.Points, folder))];

    private static CropFit Of(string crop, IReadOnlyList<DaysPoint> points, string folder)
    {
        var prior = CropPrior.Of(crop, folder);
        var rate = RateSearch.Fit(points, prior);
        var left = points.Where(point => point is { Days: not null, Celsius: > 0 }).Select(point => new LeftOut(
            point.Celsius, point.Days!.Value, rate.DaysAt(point.Celsius) ?? MostDays,
            RateSearch.Fit([.. points.Where(other => other != point)], prior).DaysAt(point.Celsius) ?? MostDays));
        return new CropFit(crop, prior, rate, points, [.. left]);
    }
}

/// <summary>One point of the days table with the days the fit gives, seen and left out.</summary>
public sealed record LeftOut(double Celsius, double Days, double Fitted, double WithoutIt)
{
    public double Error => Math.Abs(Fitted - Days);

    public double ErrorWithoutIt => Math.Abs(WithoutIt - Days);

    /// <summary>59–86 °F, where seed is germinated.</summary>
    public bool IsUsual => Celsius is >= 15 and <= 30;
}
