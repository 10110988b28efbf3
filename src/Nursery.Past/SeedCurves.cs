namespace Nursery.Past;

/// <summary>When seeds come up. On purpose not the curves and not the temperature sums the product reckons with.</summary>
internal static class SeedCurves
{
    public static CurveTruth Draw(string variety, PastCrop crop, Pcg32 random)
    {
        var median = crop.DaysToEmergence * random.Between(0.75, 1.1);
        var scale = median * random.Between(0.08, 0.16);
        return new CurveTruth(
            variety,
            random.Chance(0.4),
            Math.Round(random.Between(0.6, 0.85), 3),
            Math.Round(median * 0.92, 3),
            Math.Round(median * random.Between(1.35, 1.6), 3),
            Math.Round(median - (0.3665 * scale), 3),
            Math.Round(scale, 3));
    }

    /// <summary>Days at the optimum one seed needs.</summary>
    public static double Need(CurveTruth curve, Pcg32 random)
    {
        if (curve.IsGompertz)
        {
            return Math.Max(0.5, curve.Mode - (curve.Scale * Math.Log(-Math.Log(random.Unit()))));
        }

        var quick = random.Chance(curve.QuickShare);
        return (quick ? curve.QuickMedian : curve.SlowMedian) * Math.Exp((quick ? 0.12 : 0.22) * random.Normal());
    }

    /// <summary>How far one day brings a seed, in days at the optimum: the beta function with three cardinal temperatures, X. Yin and
    /// others, A nonlinear model for crop development as a function of temperature, Agricultural and Forest Meteorology 77, 1995
    /// (from memory). The cardinals are the crop's, a little wider.</summary>
    public static double Rate(PastCrop crop, double celsius)
    {
        var (low, best, high) = (crop.MinC - 4, crop.OptimumC, crop.MaxC + 6);
        if (celsius <= low || celsius >= high)
        {
            return 0;
        }

        return (high - celsius) / (high - best) * Math.Pow((celsius - low) / (best - low), (best - low) / (high - best));
    }
}
