using System.Globalization;
using Nursery.Agronomy;
using Nursery.Agronomy.Sowing;
using Nursery.Application.Computed;

namespace Nursery.Application.Sowings;

/// <summary>One batch to be sown, with all that its numbers come from.</summary>
internal sealed record SowingCase(SowingWish Wish, HeatSpot Spot, SeedChance Seed, SowingTerms Terms, SowingQuestion Question)
{
    /// <summary>More in a cell than anybody computes with.</summary>
    private const int MostSeeds = 15;

    private readonly SowingOptions _options = new(Question);

    /// <summary>Asked for by the list and again by its warnings.</summary>
    private readonly Dictionary<(int SeedsPerCell, int Cells), double> _chances = [];

    /// <summary>Every number of seeds a cell that can reach the chance asked for.</summary>
    public IReadOnlyList<SowingOption> All() => [.. Terms.Candidates.Select(TryOf).OfType<SowingOption>()];

    /// <summary>The cheapest of those that suit the crop, in whole trays, for a batch fills its trays; null when none reaches the chance.</summary>
    public SowingOption? Best(IEnumerable<SowingOption> options) =>
        options.Where(option => Terms.Suits(Wish.Crop, option.SeedsPerCell)).MinBy(option => _options.CostOf(option.SeedsPerCell, option.Trays * Wish.CellsPerTray));

    /// <summary>The same with every cell of its trays sown.</summary>
    public SowingOption InTrays(SowingOption option) => _options.At(option.SeedsPerCell, option.Trays * Wish.CellsPerTray);

    /// <summary>Null when no number of cells reaches the chance, or fewer seeds are asked for than are kept.</summary>
    public SowingOption? TryOf(int seedsPerCell)
    {
        try
        {
            return _options.Of(seedsPerCell);
        }
        catch (InputOutOfRange)
        {
            return null;
        }
    }

    /// <summary>Chance that so many cells give the plants wanted; 0 when fewer seeds are sown in one than are kept.</summary>
    public double Chance(int seedsPerCell, int cells)
    {
        if (seedsPerCell < Terms.Keep.Low)
        {
            return 0;
        }

        return _chances.TryGetValue((seedsPerCell, cells), out var known)
            ? known
            : _chances[(seedsPerCell, cells)] = _options.Chance(Math.Min(MostSeeds, seedsPerCell), cells).Value;
    }

    /// <summary>What so many cells give and cost; null when fewer seeds are sown in one than are kept.</summary>
    /// <param name="seedsPerCell">Seeds a cell.</param>
    /// <param name="cells">Of the batch.</param>
    /// <param name="more">Cells of whole trays beyond those: only they cost, the chance is that of all.</param>
    public SownCells? CellsOf(int seedsPerCell, int cells, int more = 0)
    {
        if (seedsPerCell < Terms.Keep.Low || cells < 1)
        {
            return null;
        }

        var sown = Math.Min(MostSeeds, seedsPerCell);
        var all = _options.At(sown, cells + more);
        return more == 0
            ? new SownCells(seedsPerCell, cells, all.Trays, all.Chance, all.Cost)
            : new SownCells(seedsPerCell, more, more / Wish.CellsPerTray, all.Chance, all.Cost - _options.CostOf(sown, cells));
    }

    /// <summary>Null without a lot.</summary>
    public double? GramsOf(long seeds) => Wish.Lot is { } lot ? seeds / (double)lot.SeedsPerGram : null;

    /// <summary>Null without a lot.</summary>
    public How? GramsHow(long seeds) => Wish.Lot is { } lot
        ? new How(
            "grams of seed", "cells × seeds a cell ÷ seeds a gram",
            [HowInput.Of("seeds", seeds, "0", "", "the plan"), HowInput.Of("seeds a gram", (double)lot.SeedsPerGram, "0.#", "1/g", $"lot {lot.Code}")],
            "arithmetic", "docs/agronomy/sowing.md")
        : null;

    /// <summary>One seed a cell with a patch tray beside it; null for clumps, and where it would take too much.</summary>
    public PatchOption? Patch()
    {
        try
        {
            return Terms.Keep.High == 1 ? PatchOption.Of(Question) : null;
        }
        catch (InputOutOfRange)
        {
            return null;
        }
    }

    /// <summary>How the chances came to be.</summary>
    public How How => new(
        string.Create(CultureInfo.InvariantCulture, $"chance of {Wish.Plants:N0} usable {(Terms.Keep.High == 1 ? "plants" : "clumps")}"),
        "P(usable of n cells ≥ wanted): each cell filled from k seeds of chance Beta(a, b), times survival, less lost trays; the fewest cells that reach the chance asked for; cost = seed + trays + thinning + heat; the k that is cheapest in whole trays",
        [
            HowInput.Of("chance of a seed", Seed.Prior.Mean * 100, "0.#", "%", Seed.How.Formula),
            .. Seed.How.Inputs,
            new HowInput("heat", "", "", Spot.From),
            .. Terms.Inputs,
        ],
        "beta-binomial: Johnson, Kemp & Kotz 2005, 6.2.2 (from memory); " + Seed.How.Source,
        "docs/agronomy/sowing.md");
}
