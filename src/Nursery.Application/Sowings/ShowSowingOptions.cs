using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy.Sowing;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Sowings;

/// <summary>One way to sow a batch.</summary>
/// <param name="Cells">Fewest that reach the chance asked for.</param>
/// <param name="Trays">Those cells in whole trays.</param>
/// <param name="Grams">Of seed; null without a lot.</param>
/// <param name="Chance">With exactly those cells, 0–1.</param>
/// <param name="ChanceInTrays">With all cells of the trays, 0–1.</param>
/// <param name="Cost">Of those cells, in the site's currency.</param>
/// <param name="Suits">Singles of a crop that is never thinned are not sown by twos.</param>
public sealed record SowingWay(
    int SeedsPerCell, int Cells, int Trays, long Seeds, double? Grams, double Chance, double ChanceInTrays, double ExpectedUsable,
    double ExpectedBlanks, double Cost, bool Suits, bool Cheapest);

/// <summary>One seed a cell and a patch tray beside it.</summary>
/// <param name="Trays">Of the cells to be full.</param>
/// <param name="PatchTrays">For the patch seeds, one a cell of the same tray.</param>
public sealed record PatchWay(
    int Cells, int Trays, int PatchSeeds, int PatchTrays, double Chance, double ExpectedMoves, double ExpectedMinutes, double Cost);

/// <summary>Some cells, their chance and their cost.</summary>
public sealed record SownCells(int SeedsPerCell, int Cells, int Trays, double Chance, double Cost);

/// <summary>How much could be sown for a batch, all ways side by side.</summary>
/// <param name="Wanted">Plants its orders want of it; 0 when no order names it, and then there are no ways.</param>
/// <param name="Planned">As it is planned now; null without orders.</param>
/// <param name="Patch">Null for clumps. Whole-tray loss is left out of it.</param>
/// <param name="RuleOfThumb">Two seeds a cell and an average allowance for losses, and what chance that really has.</param>
/// <param name="InsuranceTray">One tray more than planned.</param>
/// <param name="Seed">Chance of a seed, 0–1; null where nothing would come up.</param>
/// <param name="CanChange">Planned and in trays of its own.</param>
/// <param name="How">Null without ways.</param>
public sealed record SowingChoices(
    Guid BatchId, string BatchCode, int Version, string Currency, int Wanted, double Confidence, SownCells? Planned, IReadOnlyList<SowingWay> Ways,
    PatchWay? Patch, SownCells? RuleOfThumb, SownCells? InsuranceTray, ResowRoom? Resow, double? Seed, IReadOnlyList<string> Warnings, bool CanChange, How? How);

/// <summary>Whether a short stand shows in time for a resow.</summary>
/// <param name="KnownAfterDays">Days from sowing after which nobody takes a short stand for a late one.</param>
/// <param name="LastResowDay">Days from sowing; negative when the plan has no slack.</param>
public sealed record ResowRoom(double KnownAfterDays, int LastResowDay, bool InTime);

public sealed class ShowSowingOptions(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">No such batch on the actor's site.</exception>
    public async Task<SowingChoices> HandleAsync(Guid batch, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var batchId = new Id<Batch>(batch);
        var row = await database.BatchRows(actor.SiteId).AsNoTracking().FirstOrDefaultAsync(found => found.Batch.Id == batchId, cancellation)
            ?? throw new NotFound("batch", "id", batch.ToString());
        var site = await database.SiteOfAsync(actor, cancellation);
        var wishes = await SowingWishes.LoadAsync(database, [row], cancellation);
        var ground = await SowingGround.LoadAsync(database, site, site.Today(time), cancellation);
        var shared = await database.TrayShares.CountAsync(share => share.TraySetId == row.TraySet.Id, cancellation) > 1;
        var wish = wishes.Of(row);
        var sowing = wish is null ? null : ground.Of(wish);
        var planned = sowing is null ? null : CellsOf(sowing, row.Batch.SeedsPerCell, row.Batch.Cells);
        var ways = sowing is null ? [] : WaysOf(sowing);
        return new SowingChoices(
            batch, row.Batch.Code, row.Batch.Version, site.Currency, wish?.Plants ?? 0, SowingTerms.Of(site, row.Crop, row.TraySet.CellsPerTray).Confidence.Value,
            planned, ways, sowing is null ? null : PatchOf(sowing), sowing is null ? null : ThumbOf(sowing),
            sowing is null ? null : CellsOf(sowing, row.Batch.SeedsPerCell, row.Batch.Cells + row.TraySet.CellsPerTray),
            sowing is null ? null : wishes.ResowOf(row, sowing), sowing?.Seed.Prior.Mean, SowingWarnings.Of(row, ground, wish, sowing, site.Units),
            row.Batch.State.Stage == BatchStage.Planned && !shared, sowing?.How);
    }

    private static List<SowingWay> WaysOf(SowingCase sowing)
    {
        var options = sowing.All();
        var best = sowing.Best(options);
        return
        [
            .. options.Select(option => new SowingWay(
                option.SeedsPerCell, option.Cells, option.Trays, option.Seeds, sowing.GramsOf(option.Seeds), option.Chance,
                sowing.Chance(option.SeedsPerCell, option.Trays * sowing.Wish.CellsPerTray), option.ExpectedUsable, option.ExpectedBlanks, option.Cost,
                sowing.Terms.Suits(sowing.Wish.Crop, option.SeedsPerCell), option == best)),
        ];
    }

    private static PatchWay? PatchOf(SowingCase sowing) => sowing.Patch() is { } patch
        ? new PatchWay(
            patch.Cells, TraysOf(sowing, patch.Cells), patch.PatchSeeds, TraysOf(sowing, patch.PatchSeeds), patch.Chance, patch.ExpectedMoves,
            patch.ExpectedMinutes, patch.Cost)
        : null;

    private static SownCells? ThumbOf(SowingCase sowing)
    {
        const int seeds = 2;
        var label = sowing.Wish.Lot?.LabelGermination ?? SeedChances.GerminationWithoutLot;
        return sowing.Terms.Keep.High == 1 && label > 0
            ? CellsOf(sowing, seeds, Nursery.Agronomy.SowingNeed.Cells(sowing.Wish.Plants, label, seeds))
            : null;
    }

    private static SownCells? CellsOf(SowingCase sowing, int seeds, int cells) => sowing.At(seeds, cells) is { } option
        ? new SownCells(seeds, cells, option.Trays, option.Chance, option.Cost)
        : null;

    private static int TraysOf(SowingCase sowing, int cells) => (cells + sowing.Wish.CellsPerTray - 1) / sowing.Wish.CellsPerTray;
}
