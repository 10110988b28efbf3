using System.Globalization;
using Nursery.Agronomy;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sowings;

/// <summary>How growing mix and what is stirred in are said, the same on the screen and on paper.</summary>
public static class MixWords
{
    private const double OuncesPerPound = 16;
    private const double CubicFeetPerYard = 27;

    /// <summary>41 L (1.4 cu ft).</summary>
    public static string Liters(double liters, Units units) => units == Units.Metric
        ? Invariant($"{Digits(liters)} L")
        : new Volume(liters).CubicFeet is var feet && feet < CubicFeetPerYard
            ? Invariant($"{Digits(feet)} cu ft ({Digits(liters)} L)")
            : Invariant($"{Digits(feet / CubicFeetPerYard)} cu yd ({Digits(liters)} L)");

    /// <summary>26 g (0.9 oz); pounds and kilograms where it is more.</summary>
    public static string Grams(double grams, Units units)
    {
        var metric = grams < 1000 ? Invariant($"{Digits(grams)} g") : Invariant($"{Digits(grams / 1000)} kg");
        if (units == Units.Metric)
        {
            return metric;
        }

        var ounces = new Mass(grams).Ounces;
        return ounces < OuncesPerPound ? Invariant($"{Digits(ounces)} oz ({metric})") : Invariant($"{Digits(ounces / OuncesPerPound)} lb ({metric})");
    }

    /// <summary>Liters, bales, what is stirred in.</summary>
    public static string Sum(MixNeed mix, Units units)
    {
        var bales = Invariant($"{mix.Packages:N0} {(mix.Packages == 1 ? "bale or bag" : "bales or bags")} of {Liters(mix.PackageLiters, units)}");
        var with = mix.Amendments.Count == 0 ? "" : "; stir in " + string.Join(", ", mix.Amendments.Select(amendment => $"{amendment.Name} {Grams(amendment.Grams, units)}"));
        return $"{Liters(mix.Liters, units)} of loosened mix, {bales}{with}{Unknown(mix)}";
    }

    /// <summary>Trays whose mix nobody can tell; empty when there are none.</summary>
    public static string Unknown(MixNeed mix) => mix.UnknownTrays == 0
        ? ""
        : Invariant($"; without {mix.UnknownTrays:N0} {(mix.UnknownTrays == 1 ? "tray" : "trays")} of unknown cells: say their volume in Setup, tray types");

    private static string Digits(double value) => value.ToString(value < 10 ? "0.0" : "N0", CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
