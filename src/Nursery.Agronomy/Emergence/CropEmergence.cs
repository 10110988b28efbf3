namespace Nursery.Agronomy.Emergence;

/// <summary>How a crop's seed emerges: rate, spread and normal seedlings by temperature of the growing mix, fitted to the published days
/// table taken as days to half up (docs/agronomy/emergence.md).</summary>
public sealed class CropEmergence
{
    /// <summary>Where the answers come from.</summary>
    public static IReadOnlyList<string> Sources { get; } =
    [
        "Days to emergence: Knott's Handbook for Vegetable Growers, 4th ed. 1997, after Harrington & Minges 1954 (University of California)",
        "Normal seedlings: percentage of normal vegetable seedlings at different temperatures, table of J. F. Harrington",
        "Minimum, optimum and maximum as priors: Soil temperature conditions for vegetable seed germination (J. F. Harrington), Oregon State University Extension, 2013",
        "Class priors and spread sigma: from memory, checked against ten published samples of daily counts",
    ];

    internal CropEmergence(string name, CropClass kind, RateModel rate, RateRanges ranges, EmergenceCurve curve, IReadOnlyList<PrintedDays> printed)
    {
        (Name, Class, Rate, Ranges, Curve, Printed) = (name, kind, rate, ranges, curve, printed);
        Normal = new NormalSeedlings(printed, rate);
    }

    public string Name { get; }

    public CropClass Class { get; }

    public RateModel Rate { get; }

    /// <summary>90 % intervals of the parameters.</summary>
    public RateRanges Ranges { get; }

    public EmergenceCurve Curve { get; }

    public NormalSeedlings Normal { get; }

    public IReadOnlyList<PrintedDays> Printed { get; }

    /// <summary>Lettuce, celery and their like sleep in heat: above about 77 °F they want primed seed (from memory).</summary>
    public bool SleepsInHeat => Name is "Lettuce" or "Celery";

    /// <summary>Days from the first watering on heat until a share of the final stand is up.</summary>
    /// <param name="temperature">Of the growing mix, 0 to 50 °C.</param>
    /// <param name="share">Above 0, below 1.</param>
    /// <returns>Null where seed does not come, with the reason from <see cref="WhyNone"/>.</returns>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public double? DaysTo(Fraction share, Temperature temperature) =>
        WhyNone(temperature) is null ? Rate.DaysToHalf(temperature) * Curve.ProgressTo(share) : null;

    /// <summary>Why there is no number of days at a temperature; null where there is one. Nothing is said beyond a temperature at which the
    /// table has no germination or no test.</summary>
    /// <param name="temperature">0 to 50 °C.</param>
    public string? WhyNone(Temperature temperature)
    {
        var celsius = InputOutOfRange.Within(temperature.C, 0, 50, nameof(temperature), "°C");
        var numbers = Printed.Where(point => point.Days is not null && point.Temperature.C > 0).Select(point => point.Temperature.C).ToList();
        var blank = Printed.Where(point => point.Days is null
            && (point.Temperature.C < numbers.Min() ? celsius <= point.Temperature.C : celsius >= point.Temperature.C)).ToList();
        if (blank.FirstOrDefault(point => point.Tested) is { } none)
        {
            return FormattableString.Invariant($"no germination at {none.Temperature.Celsius} °C in the published table");
        }

        if (blank is [var first, ..])
        {
            return FormattableString.Invariant($"not tested at {first.Temperature.Celsius} °C in the published table");
        }

        return Rate.RateAt(celsius) > 0
            ? null
            : FormattableString.Invariant($"outside base {Rate.Base.C:0.0} and ceiling {Rate.Ceiling.C:0.0} °C of the fitted rate")
                + (Printed.FirstOrDefault(point => point.Temperature.C == celsius) is { Days: { } days } ? $"; the table prints {days} days" : "");
    }
}
