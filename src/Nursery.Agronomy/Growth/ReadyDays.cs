namespace Nursery.Agronomy.Growth;

/// <summary>Days from emergence to plants that are ready. Always an interval; own records and the pull test correct it.</summary>
public static class ReadyDays
{
    /// <summary>Growth rises in a straight line up to here (about 77 °F, from memory).</summary>
    private const double FlatC = 25;

    /// <summary>Under this light plugs are later and poorer, mol m⁻² d⁻¹ (from memory).</summary>
    private const double DimMol = 8;

    /// <summary>Where growing begins: about 39 °F hardy, 42 middle, 46 tender (from memory).</summary>
    public static Temperature BaseOf(Hardiness hardiness) => Temperature.FromFahrenheit(hardiness switch
    {
        Hardiness.Hardy => 39,
        Hardiness.Middle => 42,
        _ => 46,
    });

    /// <summary>The weeks of a guide hold from sowing at its temperatures: less emergence they are a thermal time, which another house runs
    /// through faster or slower.</summary>
    /// <param name="weeks">Of the guide, from sowing: above 0, to 52.</param>
    /// <param name="emergenceDays">At the guide's germination temperature, 0 to 60.</param>
    /// <param name="guideMean">Its mean of day and night, 0 to 40 °C.</param>
    /// <param name="houseMean">Daily mean of the house, 0 to 40 °C.</param>
    /// <param name="mol">Daily light in the house, 0 to 100 mol m⁻² d⁻¹.</param>
    /// <param name="hardiness">Of the crop.</param>
    /// <returns>Days from emergence; null where the house is too cold to grow.</returns>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static Interval? Of(
        (double Low, double High) weeks, double emergenceDays, Temperature guideMean, Temperature houseMean, double mol, Hardiness hardiness)
    {
        InputOutOfRange.Above(weeks.Low, 0, 52, nameof(weeks), "weeks");
        InputOutOfRange.Within(weeks.High, weeks.Low, 52, nameof(weeks), "weeks");
        InputOutOfRange.Within(emergenceDays, 0, 60, nameof(emergenceDays), "days");
        InputOutOfRange.Within(mol, 0, 100, nameof(mol), "mol m⁻² d⁻¹");
        var (guide, house) = (Growing(guideMean, nameof(guideMean), hardiness), Growing(houseMean, nameof(houseMean), hardiness));
        if (guide <= 0)
        {
            throw InputOutOfRange.Of(guideMean.C, nameof(guideMean), "°C", "above the base temperature of the crop");
        }

        if (house <= 0)
        {
            return null;
        }

        var slower = guide / house * Math.Max(1, DimMol / Math.Max(1, mol));
        double Days(double given) => Math.Max(0, ((given * 7) - emergenceDays) * slower);
        return new Interval(Days((weeks.Low + weeks.High) / 2), Days(weeks.Low), Days(weeks.High));
    }

    private static double Growing(Temperature mean, string input, Hardiness hardiness) =>
        Math.Min(InputOutOfRange.Within(mean.C, 0, 40, input, "°C"), FlatC) - BaseOf(hardiness).C;
}
