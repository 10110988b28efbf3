namespace Nursery.Agronomy.Air;

/// <summary>Source: FAO Irrigation and Drainage Paper 56, equations 7, 8, 11, 13, 14 and 15.</summary>
internal static class Fao56Air
{
    /// <summary>Coefficient of a ventilated psychrometer, 1/°C.</summary>
    public const double VentilatedPsychrometer = 0.000662;

    public static double SaturationKpa(double celsius) => 0.6108 * Math.Exp(17.27 * celsius / (celsius + 237.3));

    public static double SlopeKpa(double celsius) => 4098 * SaturationKpa(celsius) / ((celsius + 237.3) * (celsius + 237.3));

    public static double DewPointC(double actualKpa)
    {
        var log = Math.Log(actualKpa / 0.6108);
        return 237.3 * log / (17.27 - log);
    }

    public static double PressureKpa(double meters) => 101.3 * Math.Pow((293 - (0.0065 * meters)) / 293, 5.26);

    /// <summary>Psychrometric constant, kPa/°C.</summary>
    public static double GammaKpa(double pressureKpa) => 0.665e-3 * pressureKpa;
}
