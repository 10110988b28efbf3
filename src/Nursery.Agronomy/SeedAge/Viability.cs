using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.SeedAge;

/// <summary>How seed ages in store: v = Ki − p ÷ 10^(KE − CW log₁₀ m − CH t − CQ t²), v and Ki normal deviates of the fraction that still
/// germinates. Source: Ellis &amp; Roberts, Annals of Botany 45: 13–30, 1980. Not for primed seed. Nobody knows a packet's moisture and
/// temperature: show the answer with one probit either way, and let a germination test override it.</summary>
public sealed record Viability
{
    /// <param name="constants">Of the species.</param>
    /// <param name="moisture">Water of fresh weight, 2 to 30 %.</param>
    /// <param name="temperature">Of the store, −30 to 90 °C.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public Viability(ViabilityConstants constants, Fraction moisture, Temperature temperature)
    {
        var percent = InputOutOfRange.Within(moisture.Percent, 2, 30, "moisturePercent", "% of fresh weight");
        var celsius = InputOutOfRange.Within(temperature.C, -30, 90, nameof(temperature), "°C");
        SigmaDays = Math.Pow(
            10, constants.KE - (constants.CW * Math.Log10(percent)) - (constants.CH * celsius) - (constants.CQ * celsius * celsius));
    }

    /// <summary>Days in which viability falls by one probit.</summary>
    public double SigmaDays { get; }

    /// <summary>What still germinates after a time in store.</summary>
    /// <param name="initial">At the beginning, above 0, below 1: all of n seeds is (n − 0.25) ÷ n.</param>
    /// <param name="days">0 to 100,000.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public Fraction After(Fraction initial, double days) =>
        new(Normal.CDF(0, 1, Deviate(initial, "initialFraction") - (InputOutOfRange.Within(days, 0, 100_000, nameof(days), "days") / SigmaDays)));

    /// <summary>The same with the store as much as a probit better and worse than said.</summary>
    /// <inheritdoc cref="After"/>
    public Interval AfterWithinAProbit(Fraction initial, double days)
    {
        var v = Deviate(After(initial, days), 1e-300);
        return new Interval(Normal.CDF(0, 1, v), Normal.CDF(0, 1, v - 1), Normal.CDF(0, 1, v + 1));
    }

    /// <summary>Days until a fraction is left; 0 when there is less to begin with.</summary>
    /// <param name="initial">Above 0, below 1.</param>
    /// <param name="final">Above 0, below 1.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public double DaysTo(Fraction initial, Fraction final) =>
        Math.Max(0, SigmaDays * (Deviate(initial, "initialFraction") - Deviate(final, "finalFraction")));

    /// <summary>The fraction to take for all or none of n seeds, which no normal deviate has: (n − 0.25) ÷ n and 0.25 ÷ n.</summary>
    /// <param name="found">0 to 1.</param>
    /// <param name="seeds">Tested, 1 to 1,000,000.</param>
    public static Fraction Adjusted(Fraction found, int seeds)
    {
        InputOutOfRange.Within(seeds, 1, 1_000_000, nameof(seeds), "seeds");
        return found.Value switch { 1 => new((seeds - 0.25) / seeds), 0 => new(0.25 / seeds), _ => found };
    }

    /// <summary>Normal deviate of a fraction; plus 5 it is the probit.</summary>
    /// <param name="fraction">Above 0, below 1.</param>
    /// <exception cref="InputOutOfRange">0 or 1.</exception>
    public static double Deviate(Fraction fraction) => Deviate(fraction, "fraction");

    private static double Deviate(Fraction fraction, string input) => fraction.Value is > 0 and < 1
        ? Normal.InvCDF(0, 1, fraction.Value)
        : throw InputOutOfRange.Of(fraction.Value, input, "", "above 0, below 1; all of n seeds is (n - 0.25)/n");

    private static double Deviate(Fraction fraction, double least) =>
        Normal.InvCDF(0, 1, Math.Clamp(fraction.Value, least, 1 - 1e-16));
}
