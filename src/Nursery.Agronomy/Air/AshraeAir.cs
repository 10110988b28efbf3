namespace Nursery.Agronomy.Air;

/// <summary>Source: ASHRAE Handbook Fundamentals 2017, ch. 1, equations 3, 5, 6, 20, 26, 30, 33, 35 (Hyland &amp; Wexler 1983).</summary>
internal static class AshraeAir
{
    private const double Kelvin = 273.15;
    private const double DryAirGas = 287.042;

    public static double SaturationPa(double celsius)
    {
        var t = celsius + Kelvin;
        return Math.Exp(celsius <= 0.01
            ? (-5674.5359 / t) + 6.3925247 - (9.677843e-3 * t) + (6.2215701e-7 * t * t) + (2.0747825e-9 * t * t * t)
                - (9.484024e-13 * t * t * t * t) + (4.1635019 * Math.Log(t))
            : (-5800.2206 / t) + 1.3914993 - (4.8640239e-2 * t) + (4.1764768e-5 * t * t) - (1.4452093e-8 * t * t * t) + (6.5459673 * Math.Log(t)));
    }

    /// <summary>Of the saturation pressure, Pa/°C.</summary>
    public static double SlopePa(double celsius)
    {
        var t = celsius + Kelvin;
        return SaturationPa(celsius) * (celsius <= 0.01
            ? (5674.5359 / (t * t)) - 9.677843e-3 + (2 * 6.2215701e-7 * t) + (3 * 2.0747825e-9 * t * t) - (4 * 9.484024e-13 * t * t * t) + (4.1635019 / t)
            : (5800.2206 / (t * t)) - 4.8640239e-2 + (2 * 4.1764768e-5 * t) - (3 * 1.4452093e-8 * t * t) + (6.5459673 / t));
    }

    public static double PressurePa(double meters) => 101325 * Math.Pow(1 - (2.25577e-5 * meters), 5.2559);

    /// <summary>kg water in a kg of dry air.</summary>
    public static double HumidityRatio(double vaporPa, double pressurePa) => 0.621945 * vaporPa / (pressurePa - vaporPa);

    public static double HumidityRatioOfWetBulb(double celsius, double wetBulb, double pressurePa)
    {
        var saturated = HumidityRatio(SaturationPa(wetBulb), pressurePa);
        return wetBulb >= 0
            ? (((2501 - (2.326 * wetBulb)) * saturated) - (1.006 * (celsius - wetBulb))) / (2501 + (1.86 * celsius) - (4.186 * wetBulb))
            : (((2830 - (0.24 * wetBulb)) * saturated) - (1.006 * (celsius - wetBulb))) / (2830 + (1.86 * celsius) - (2.1 * wetBulb));
    }

    /// <summary>J in moist air with a kg of dry air.</summary>
    public static double EnthalpyJ(double celsius, double ratio) => ((1.006 * celsius) + (ratio * (2501 + (1.86 * celsius)))) * 1000;

    /// <summary>m³ of moist air with a kg of dry air.</summary>
    public static double VolumeM3(double celsius, double ratio, double pressurePa) =>
        DryAirGas * (celsius + Kelvin) * (1 + (1.607858 * ratio)) / pressurePa;
}
