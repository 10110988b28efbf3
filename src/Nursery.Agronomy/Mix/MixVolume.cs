namespace Nursery.Agronomy.Mix;

/// <summary>Growing mix for trays. Dust of mix can carry Legionella and silica: wet it, wear a mask, wash hands, and follow local rules.</summary>
/// <param name="Volume">To prepare.</param>
/// <param name="Amendments">What goes into it.</param>
public sealed record MixVolume(Volume Volume, IReadOnlyList<(string Name, Mass Mass)> Amendments)
{
    /// <summary>Mix settles when it is watered (from memory).</summary>
    public const double UsualSettling = 0.10;

    /// <summary>Some is spilled (from memory).</summary>
    public const double UsualWaste = 0.05;

    /// <summary>Trays × cells × cell volume × (1 + settling) × (1 + waste).</summary>
    /// <param name="trays">0 to 1,000,000.</param>
    /// <param name="cells">Of a tray, 1 to 2000.</param>
    /// <param name="cellVolume">Above 0, to 20 L.</param>
    /// <param name="settling">0 to 1; 0.10 is usual.</param>
    /// <param name="waste">0 to 1; 0.05 is usual.</param>
    /// <param name="amendments">Rates by volume.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static MixVolume Of(
        int trays, int cells, Volume cellVolume, Fraction settling, Fraction waste, IReadOnlyList<MixAmendment> amendments)
    {
        InputOutOfRange.Within(trays, 0, 1_000_000, nameof(trays), "trays");
        InputOutOfRange.Within(cells, 1, 2000, nameof(cells), "cells");
        InputOutOfRange.Above(cellVolume.Milliliters, 0, 20_000, "cellVolumeMl", "mL");
        var liters = trays * (double)cells * cellVolume.Liters * (1 + settling.Value) * (1 + waste.Value);
        return With(new Volume(liters), amendments);
    }

    /// <summary>So much mix with amendments: rate × volume each.</summary>
    /// <param name="volume">Of mix.</param>
    /// <param name="amendments">Rates by volume.</param>
    /// <exception cref="InputOutOfRange">A rate outside 0 to 100,000 g a cubic meter.</exception>
    public static MixVolume With(Volume volume, IReadOnlyList<MixAmendment> amendments) => new(volume, [.. amendments.Select(amendment => (
        amendment.Name, new Mass(InputOutOfRange.Within(amendment.Rate.Grams, 0, 100_000, "gramsPerM3", "g/m³") * volume.Liters / 1000)))]);

    /// <summary>Bales or bags to buy: what one gives when loosened.</summary>
    /// <param name="compressed">Volume of one as sold, above 0.</param>
    /// <param name="expansion">Loosened ÷ as sold, 1 to 3; about 2 for compressed bales (from memory).</param>
    public int PackagesOf(Volume compressed, double expansion) => (int)Math.Ceiling(Volume.Liters
        / (InputOutOfRange.Above(compressed.Liters, 0, 10_000, nameof(compressed), "L") * InputOutOfRange.Within(expansion, 1, 3, nameof(expansion), "")));
}
