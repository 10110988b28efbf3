using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy.Sowing;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Application.Forecasts;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Sowings;

/// <summary>One way to sow a batch, in whole trays.</summary>
/// <param name="FewestCells">Those that reach the chance asked for.</param>
/// <param name="Trays">Those cells in whole trays.</param>
/// <param name="Cells">All of those trays.</param>
/// <param name="Seeds">For all cells.</param>
/// <param name="Grams">Of that seed; null without a lot.</param>
/// <param name="ChanceOfFewest">With exactly the fewest cells, 0–1.</param>
/// <param name="Chance">With all cells, 0–1.</param>
/// <param name="ExpectedUsable">Of all cells, on average.</param>
/// <param name="ExpectedBlanks">Of all cells, on average.</param>
/// <param name="Cost">Of all cells, in the site's currency.</param>
/// <param name="Suits">Singles of a crop that is never thinned are not sown by twos.</param>
/// <param name="Cheapest">Of those that suit.</param>
public sealed record SowingWay(
    int SeedsPerCell, int FewestCells, int Trays, int Cells, long Seeds, double? Grams, double ChanceOfFewest, double Chance, double ExpectedUsable,
    double ExpectedBlanks, double Cost, bool Suits, bool Cheapest);

/// <summary>One seed a cell and a patch tray beside it.</summary>
/// <param name="Cells">To be full, at least.</param>
/// <param name="Trays">Those in whole trays.</param>
/// <param name="Seeds">For every cell of the trays, and the patch seeds.</param>
/// <param name="PatchTrays">Open trays for the patch seeds, sown close.</param>
/// <param name="Cost">With every cell of the trays sown, in the site's currency.</param>
public sealed record PatchWay(
    int Cells, int Trays, long Seeds, int PatchSeeds, int PatchTrays, double Chance, double ExpectedMoves, double ExpectedMinutes, double Cost);

/// <summary>Some cells, their chance and their cost in the site's currency.</summary>
public sealed record SownCells(int SeedsPerCell, int Cells, int Trays, double Chance, double Cost);

/// <summary>How much could be sown for a batch, all ways side by side.</summary>
/// <param name="Wanted">Plants its orders want of it; 0 when no order names it, and then there are no ways.</param>
/// <param name="Confidence">Chance asked for, 0–1.</param>
/// <param name="Planned">As it is planned now; null without orders.</param>
/// <param name="Patch">Null for clumps. Whole-tray loss is left out of it.</param>
/// <param name="RuleOfThumb">Two seeds a cell and an average allowance for losses, and what chance that really has.</param>
/// <param name="InsuranceTray">One tray more than planned: its own cells and cost, the chance of all.</param>
/// <param name="Risk">Whether a short stand would show in time; null once it is sown.</param>
/// <param name="Seed">Chance of a seed, 0–1; null where nothing would come up.</param>
/// <param name="CanChange">Planned and in trays of its own.</param>
/// <param name="How">Where the numbers come from.</param>
public sealed record SowingChoices(
    Guid BatchId, string BatchCode, int Version, string Currency, int Wanted, double Confidence, SownCells? Planned, IReadOnlyList<SowingWay> Ways,
    PatchWay? Patch, SownCells? RuleOfThumb, SownCells? InsuranceTray, SowingRisk? Risk, double? Seed, IReadOnlyList<string> Warnings, bool CanChange,
    IReadOnlyList<How> How);

/// <summary>All ways to sow a planned batch for what its orders want.</summary>
public sealed class ShowSowingOptions(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="codeOrId">Of a batch.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="NotFound">No such batch on the actor's site.</exception>
    public async Task<SowingChoices> HandleAsync(string codeOrId, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = database.BatchRows(actor.SiteId).AsNoTracking();
        var row = await (Guid.TryParse(codeOrId, out var id)
                ? rows.Where(found => found.Batch.Id == new Id<Batch>(id))
                : rows.Where(found => found.Batch.Code == codeOrId)).FirstOrDefaultAsync(cancellation)
            ?? throw new NotFound("batch", "code or id", codeOrId);
        var site = await database.SiteOfAsync(actor, cancellation);
        var wishes = await SowingWishes.LoadAsync(database, [row], cancellation);
        var (ground, risks) = await SowingGround.LoadWithRisksAsync(database, site, [row], time, cancellation);
        var shared = await database.TrayShares.CountAsync(share => share.TraySetId == row.TraySet.Id, cancellation) > 1;
        var wish = wishes.Of(row);
        var sowing = wish is null ? null : ground.Of(wish);
        var open = row.Batch.State.SownOn is null;
        var risk = open ? risks.GetValueOrDefault(row.Batch.Id.Value) : null;
        return new SowingChoices(
            row.Batch.Id.Value, row.Batch.Code, row.Batch.Version, site.Currency, wish?.Plants ?? 0,
            SowingTerms.Of(site, row.Crop, row.TraySet.CellsPerTray).Confidence.Value,
            sowing?.CellsOf(row.Batch.SeedsPerCell, row.Batch.Cells), sowing is null ? [] : WaysOf(sowing), sowing is null ? null : PatchOf(sowing),
            sowing is null ? null : ThumbOf(sowing), sowing?.CellsOf(row.Batch.SeedsPerCell, row.Batch.Cells, row.TraySet.CellsPerTray), risk,
            sowing?.Seed.Prior.Mean, open ? SowingWarnings.Of(row, ground, wish, sowing, site.Units) : [],
            row.Batch.State.Stage == BatchStage.Planned && !shared, [.. new[] { sowing?.How, risk?.How }.OfType<How>()]);
    }

    private static List<SowingWay> WaysOf(SowingCase sowing)
    {
        var options = sowing.All();
        var best = sowing.Best(options);
        return
        [
            .. options.Select(option => (option, All: sowing.InTrays(option))).Select(way => new SowingWay(
                way.option.SeedsPerCell, way.option.Cells, way.option.Trays, way.All.Cells, way.All.Seeds, sowing.GramsOf(way.All.Seeds), way.option.Chance,
                way.All.Chance, way.All.ExpectedUsable, way.All.ExpectedBlanks, way.All.Cost,
                sowing.Terms.Suits(sowing.Wish.Crop, way.option.SeedsPerCell), way.option == best)),
        ];
    }

    private static PatchWay? PatchOf(SowingCase sowing)
    {
        if (sowing.Patch() is not { } patch)
        {
            return null;
        }

        var (perTray, costs) = (sowing.Wish.CellsPerTray, sowing.Terms.Costs);
        var trays = (patch.Cells + perTray - 1) / perTray;
        var spare = (trays * perTray) - patch.Cells;
        return new PatchWay(
            patch.Cells, trays, ((long)trays * perTray) + patch.PatchSeeds, patch.PatchSeeds, patch.PatchTrays, patch.Chance, patch.ExpectedMoves,
            patch.ExpectedMinutes, patch.Cost + (spare * (costs.Seed + costs.Cell)));
    }

    private static SownCells? ThumbOf(SowingCase sowing)
    {
        const int seeds = 2;
        var label = sowing.Wish.Lot?.LabelGermination ?? SeedChances.GerminationWithoutLot;
        return sowing.Terms.Keep.High == 1 && label > 0
            ? sowing.CellsOf(seeds, Nursery.Agronomy.SowingNeed.Cells(sowing.Wish.Plants, label, seeds))
            : null;
    }
}
