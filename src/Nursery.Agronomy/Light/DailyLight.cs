namespace Nursery.Agronomy.Light;

/// <summary>Light of a day on a square meter, mol (DLI).</summary>
public static class DailyLight
{
    /// <summary>mol in an MJ of sunlight: 2.0–2.1 (4.57 µmol/J in the visible, of which about 45 % is; Thimijan &amp; Heins, HortScience 18:
    /// 818–822, 1983).</summary>
    public const double MolPerMegajoule = 2.05;

    /// <summary>What a cover lets through (0.5–0.6, from memory).</summary>
    public const double UsualCover = 0.55;

    /// <summary>Lamps stay off at night for this long a day at least; tomato bears 18 h (from memory).</summary>
    public const double MostLampHours = 16;

    /// <summary>PPFD × hours × 3600 ÷ 10⁶.</summary>
    /// <param name="ppfd">0 to 10,000 µmol m⁻² s⁻¹.</param>
    /// <param name="hours">0 to 24.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static double Mol(double ppfd, double hours) =>
        InputOutOfRange.Within(ppfd, 0, 10_000, nameof(ppfd), "µmol m⁻² s⁻¹") * InputOutOfRange.Within(hours, 0, 24, nameof(hours), "h") * 0.0036;

    /// <summary>What the sun gives inside.</summary>
    /// <param name="solarMj">0 to 60 MJ m⁻² d⁻¹ outside.</param>
    /// <param name="cover">Share the cover lets through.</param>
    public static double Inside(double solarMj, Fraction cover) =>
        InputOutOfRange.Within(solarMj, 0, 60, nameof(solarMj), "MJ m⁻² d⁻¹") * MolPerMegajoule * cover.Value;

    /// <summary>Hours of lamps that make up for what is missing; not more than the most, so a dark day may stay short.</summary>
    /// <param name="wanted">0 to 100 mol m⁻² d⁻¹.</param>
    /// <param name="natural">0 to 100 mol m⁻² d⁻¹.</param>
    /// <param name="ppfd">Of the lamps, above 0, to 10,000 µmol m⁻² s⁻¹.</param>
    /// <param name="most">Hours, 0 to 24.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static double LampHours(double wanted, double natural, double ppfd, double most = MostLampHours)
    {
        InputOutOfRange.Within(wanted, 0, 100, "wantedMol", "mol m⁻² d⁻¹");
        InputOutOfRange.Within(natural, 0, 100, "naturalMol", "mol m⁻² d⁻¹");
        InputOutOfRange.Above(ppfd, 0, 10_000, nameof(ppfd), "µmol m⁻² s⁻¹");
        InputOutOfRange.Within(most, 0, 24, nameof(most), "h");
        return Math.Min(most, Math.Max(0, wanted - natural) / (ppfd * 0.0036));
    }

    /// <summary>Energy of lamps, kWh.</summary>
    /// <param name="watts">0 to 10,000,000 W.</param>
    /// <param name="hours">0 to 24 a day.</param>
    public static double LampEnergyKwh(double watts, double hours) =>
        InputOutOfRange.Within(watts, 0, 10_000_000, nameof(watts), "W") * InputOutOfRange.Within(hours, 0, 24, nameof(hours), "h") / 1000;

    /// <summary>mol m⁻² d⁻¹ wanted from – to by days since emergence: none before, 6–8 in the first week (from memory), then 10–12, and
    /// never under 8. Source of the last: 10–15 for vegetable transplants, extension guides.</summary>
    /// <param name="daysSinceEmergence">Negative before emergence.</param>
    public static (double From, double To) Target(double daysSinceEmergence) =>
        InputOutOfRange.Within(daysSinceEmergence, -400, 400, nameof(daysSinceEmergence), "days") switch { < 0 => (0, 0), < 7 => (6, 8), _ => (10, 12) };
}
