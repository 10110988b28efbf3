using Nursery.Agronomy.Light;

namespace Nursery.Agronomy.Air;

/// <summary>Reference evapotranspiration of open, short, watered grass by Penman–Monteith, with every term. Source: FAO Irrigation and Drainage
/// Paper 56, 1998, equation 6 and chapter 3, with 273.16 for K as printed. Not for benches under a cover: see the water of trays.</summary>
public sealed record ReferenceEvapotranspiration
{
    private const double StefanBoltzmann = 4.903e-9;
    private const double Kelvin = 273.16;
    private const double Albedo = 0.23;

    /// <exception cref="InputOutOfRange">An input outside its range, or two that contradict each other.</exception>
    public ReferenceEvapotranspiration(EvapotranspirationQuestion question)
    {
        question.Check();
        var (low, high) = (question.Minimum.C, question.Maximum.C);
        Sun = new DaySun(question.Latitude, question.DayOfYear);
        MeanC = (low + high) / 2;
        PressureKpa = Fao56Air.PressureKpa(question.Altitude.Meters);
        GammaKpa = Fao56Air.GammaKpa(PressureKpa);
        SlopeKpa = Fao56Air.SlopeKpa(MeanC);
        SaturationKpa = (Fao56Air.SaturationKpa(low) + Fao56Air.SaturationKpa(high)) / 2;
        ActualKpa = ActualOf(question, SaturationKpa);
        Wind2Ms = question.WindHeight.Meters == 2
            ? question.WindMs
            : question.WindMs * 4.87 / Math.Log((67.8 * question.WindHeight.Meters) - 5.42);
        SolarMj = question.SolarMj ?? Sun.SolarMj(question.SunshineHours!.Value);
        ClearSkyMj = (0.75 + (2e-5 * question.Altitude.Meters)) * Sun.ExtraterrestrialMj;
        NetShortwaveMj = (1 - Albedo) * SolarMj;
        NetLongwaveMj = StefanBoltzmann * ((Math.Pow(high + Kelvin, 4) + Math.Pow(low + Kelvin, 4)) / 2) * (0.34 - (0.14 * Math.Sqrt(ActualKpa)))
            * ((1.35 * (ClearSkyMj > 0 ? Math.Min(1, SolarMj / ClearSkyMj) : 1)) - 0.35);
        NetMj = NetShortwaveMj - NetLongwaveMj;
        MmPerDay = Math.Max(0, ((0.408 * SlopeKpa * (NetMj - question.SoilHeatMj))
            + (GammaKpa * 900 / (MeanC + 273) * Wind2Ms * (SaturationKpa - ActualKpa))) / (SlopeKpa + (GammaKpa * (1 + (0.34 * Wind2Ms)))));
    }

    /// <summary>mm a day, 0 or more.</summary>
    public double MmPerDay { get; }

    public DaySun Sun { get; }

    public double MeanC { get; }

    public double PressureKpa { get; }

    /// <summary>Psychrometric constant, kPa/°C.</summary>
    public double GammaKpa { get; }

    /// <summary>Slope of saturation, kPa/°C.</summary>
    public double SlopeKpa { get; }

    public double SaturationKpa { get; }

    public double ActualKpa { get; }

    /// <summary>At 2 m, m/s.</summary>
    public double Wind2Ms { get; }

    /// <summary>All radiation in MJ m⁻² d⁻¹.</summary>
    public double SolarMj { get; }

    public double ClearSkyMj { get; }

    public double NetShortwaveMj { get; }

    public double NetLongwaveMj { get; }

    public double NetMj { get; }

    private static double ActualOf(EvapotranspirationQuestion question, double saturation)
    {
        if (question.Actual is { } actual)
        {
            return actual.Kilopascals <= saturation
                ? actual.Kilopascals
                : throw InputOutOfRange.Of(actual.Kilopascals, "actualKpa", "kPa", FormattableString.Invariant($"0 to saturation, {saturation:0.###}"));
        }

        return question.MeanHumidity is { } mean
            ? mean.Value * saturation
            : ((Fao56Air.SaturationKpa(question.Minimum.C) * question.MaximumHumidity!.Value.Value)
                + (Fao56Air.SaturationKpa(question.Maximum.C) * question.MinimumHumidity!.Value.Value)) / 2;
    }
}
