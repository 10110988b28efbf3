namespace Nursery.Agronomy.Emergence;

/// <summary>How fast seed moves to emergence at a temperature of the growing mix: nothing up to the base, rising in a straight line to the
/// optimum, falling in a straight line to nothing at the ceiling. 1 ÷ rate is the days to half of the final stand.
/// Sources: the rising line, Bierhuizen &amp; Wagenvoort, Scientia Horticulturae 2: 213–219, 1974 (from memory); worked for onion in
/// Brewster, Onions and Other Vegetable Alliums, 2nd ed., CABI 2008, ch. 4; the falling line, Garcia-Huidobro, Monteith &amp; Squire,
/// J. Exp. Bot. 33: 288–296, 1982 (from memory).</summary>
public sealed record RateModel
{
    /// <param name="baseTemperature">Where the rate begins, −10 to 25 °C.</param>
    /// <param name="thermalTime">°C·days above the base to half up, above 0, to 2000.</param>
    /// <param name="optimum">Fastest, above the base, to 45 °C.</param>
    /// <param name="ceiling">Where it is over, above the optimum, to 55 °C.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public RateModel(Temperature baseTemperature, double thermalTime, Temperature optimum, Temperature ceiling)
    {
        InputOutOfRange.Within(baseTemperature.C, -10, 25, nameof(baseTemperature), "°C");
        ThermalTime = InputOutOfRange.Above(thermalTime, 0, 2000, nameof(thermalTime), "°C·days");
        InputOutOfRange.Above(optimum.C, baseTemperature.C, 45, nameof(optimum), "°C");
        InputOutOfRange.Above(ceiling.C, optimum.C, 55, nameof(ceiling), "°C");
        (Base, Optimum, Ceiling) = (baseTemperature, optimum, ceiling);
    }

    /// <summary>For a crop the table does not have: from what its profile says. The base is that of its class (1.5 °C where it germinates
    /// from 5 °C or colder, 7 °C to 12 °C, else 10.5 °C), the ceiling 5 °C above the highest temperature for seed; both from memory.</summary>
    /// <param name="minimum">Coldest that is useful, 0 to 30 °C.</param>
    /// <param name="optimum">Best, above the minimum.</param>
    /// <param name="maximum">Warmest, from the optimum on.</param>
    /// <param name="days">To emergence at the optimum, 1 to 100.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static RateModel FromProfile(Temperature minimum, Temperature optimum, Temperature maximum, int days)
    {
        var coldest = InputOutOfRange.Within(minimum.C, 0, 30, nameof(minimum), "°C");
        var best = InputOutOfRange.Above(optimum.C, coldest, 45, nameof(optimum), "°C");
        var warmest = InputOutOfRange.Within(maximum.C, best, 50, nameof(maximum), "°C");
        var low = Math.Min(coldest - 1, coldest <= 5 ? 1.5 : coldest <= 12 ? 7 : 10.5);
        return new RateModel(
            Temperature.FromDegrees(low), InputOutOfRange.Within(days, 1, 100, nameof(days), "days") * (best - low), optimum,
            Temperature.FromDegrees(Math.Max(best + 4, warmest + 5)));
    }

    public Temperature Base { get; }

    /// <summary>°C·days above the base.</summary>
    public double ThermalTime { get; }

    public Temperature Optimum { get; }

    public Temperature Ceiling { get; }

    /// <summary>Share of the way to half up that one day at this temperature brings, 0 or more; 1 ÷ days.</summary>
    public double RateAt(Temperature temperature) => RateAt(temperature.C);

    /// <summary>Days to half up at one temperature; null where the rate is nothing.</summary>
    public double? DaysToHalf(Temperature temperature) => RateAt(temperature) is > 0 and var rate ? 1 / rate : null;

    /// <summary>The same seed, slower or faster: thermal time multiplied by this.</summary>
    /// <param name="factor">Above 0, to 20.</param>
    public RateModel Times(double factor) =>
        new(Base, ThermalTime * InputOutOfRange.Above(factor, 0, 20, nameof(factor), ""), Optimum, Ceiling);

    internal double RateAt(double celsius)
    {
        var (low, best, high) = (Base.C, Optimum.C, Ceiling.C);
        return celsius <= low || celsius >= high
            ? 0
            : celsius <= best
                ? (celsius - low) / ThermalTime
                : (best - low) / ThermalTime * (high - celsius) / (high - best);
    }
}
