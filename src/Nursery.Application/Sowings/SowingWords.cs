using System.Globalization;
using NodaTime;
using Nursery.Domain.Crops;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sowings;

/// <summary>How a sowing is said, the same on the screen and on paper.</summary>
public static class SowingWords
{
    private const decimal MmPerInch = 25.4m;
    private const int Parts = 16;

    /// <summary>Over what should have been sown before the days shown.</summary>
    public const string LateDays = "Late, from days before";

    public const string Treated = "Treated seed: wear gloves, follow its label, never use it as food or feed.";
    public const string Dust = "Wet peat, perlite and gypsum before you stir them; wear a respirator where they dust; open bagged mixes away from the face and wash your hands.";
    public const string Lifting = "A bale or a wet tray is heavy: lift with the legs, two people or a cart for more than one can carry. Follow the labels and local rules.";

    /// <summary>How deep, and whether it is covered: 6 mm, cover; in US units to a sixteenth of an inch.</summary>
    public static string Depth(decimal depthMm, Units units)
    {
        if (depthMm == 0)
        {
            return "on the surface, no cover";
        }

        return (units == Units.UsCustomary ? Inches(depthMm) : string.Create(CultureInfo.InvariantCulture, $"{depthMm:0.#} mm")) + ", cover";
    }

    public static string Light(LightNeed light) => light switch
    {
        LightNeed.NeedsLight => "needs light",
        LightNeed.Dark => "keep dark",
        LightNeed.Indifferent => "light or dark",
        _ => throw new ArgumentOutOfRangeException(nameof(light), light, "a need without a word"),
    };

    /// <summary>A chance in whole percent, never rounded up to certainty.</summary>
    public static string Chance(double chance) => chance switch
    {
        > 0.995 => "more than 99 %",
        < 0.005 => "less than 1 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{chance * 100:0} %"),
    };

    /// <summary>A chance where the exact figure matters: 95 %, 84.6 %.</summary>
    public static string Percent(double chance) => string.Create(CultureInfo.InvariantCulture, $"{chance * 100:0.#} %");

    /// <summary>USD 12.40.</summary>
    public static string Money(double amount, string currency) => string.Create(CultureInfo.InvariantCulture, $"{currency} {amount:N2}");

    /// <summary>Of seed: 0.42 g, 3.1 g, 25 g.</summary>
    public static string Grams(double grams) => string.Create(
        CultureInfo.InvariantCulture, $"{grams.ToString(grams < 1 ? "0.00" : grams < 10 ? "0.0" : "N0", CultureInfo.InvariantCulture)} g");

    /// <summary>Grams to take against the stock; null without a lot.</summary>
    public static string? Stock(SowingItem item) => item is { Grams: { } grams, StockGrams: { } stock, StockSeeds: { } seeds }
        ? item.SownOn is null && seeds < item.SeedsToTake
            ? string.Create(CultureInfo.InvariantCulture, $"{Grams(grams)}; only {seeds:N0} {(seeds == 1 ? "seed" : "seeds")} in stock, {Grams(stock)}")
            : item.SownOn is null ? $"{Grams(grams)} of {Grams(stock)}" : Grams(grams)
        : null;

    /// <summary>3 trays of 72; of a shared tray the cells that are its own.</summary>
    public static string Trays(SowingItem item) => item.Shared
        ? string.Create(CultureInfo.InvariantCulture, $"{item.Cells:N0} cells of a shared tray of {item.CellsPerTray}")
        : string.Create(CultureInfo.InvariantCulture, $"{item.Trays:N0} {(item.Trays == 1 ? "tray" : "trays")} of {item.CellsPerTray}");

    public static string Sum(IReadOnlyCollection<SowingItem> items) => string.Create(
        CultureInfo.InvariantCulture,
        $"{items.Count:N0} {(items.Count == 1 ? "batch" : "batches")}, {Count(items):N0} {(Count(items) == 1 ? "tray" : "trays")}, {items.Sum(item => item.SeedsToTake):N0} seeds");

    public static string Day(LocalDate day) => day.ToString("dddd, d MMMM uuuu", CultureInfo.InvariantCulture);

    public static string Span(LocalDate from, LocalDate to) => from == to
        ? Written(from)
        : $"{Written(from)} to {Written(to)}";

    private static int Count(IEnumerable<SowingItem> items) => items.Sum(item => item.Shared ? 0 : item.Trays);

    private static string Written(LocalDate day) => day.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);

    private static string Inches(decimal depthMm)
    {
        var sixteenths = Math.Max(1, (int)Math.Round(depthMm / MmPerInch * Parts, MidpointRounding.AwayFromZero));
        var (whole, rest, of) = (sixteenths / Parts, sixteenths % Parts, Parts);
        while (rest > 0 && rest % 2 == 0)
        {
            (rest, of) = (rest / 2, of / 2);
        }

        var fraction = rest == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{rest}/{of}");
        return string.Create(CultureInfo.InvariantCulture, $"{(whole > 0 ? whole.ToString(CultureInfo.InvariantCulture) + " " : "")}{fraction}").Trim() + " in";
    }
}
