using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Reservations;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>The trays a batch has to itself now, and what becomes of those it shared, in sentences.</summary>
public sealed record UnsharedTrays(string TraySetCode, int Trays, int Cells, IReadOnlyList<string> Follows);

/// <summary>Takes a planned batch out of the trays it shares: it gets as many of its own as its cells fill. The others close up
/// in the trays that stay, and keep the spaces these still need; the last one left has them to itself.</summary>
public sealed class UnshareTrays(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="batchId">The batch that leaves.</param>
    /// <param name="version">The version it was read at.</param>
    /// <param name="actor">Who plans.</param>
    /// <param name="cancellation">Ends it before anything is stored.</param>
    /// <exception cref="NotFound">No such batch on this site.</exception>
    /// <exception cref="NotShared">It shares trays with none.</exception>
    /// <exception cref="SharedTraysSown">It, or one it shares with, is sown.</exception>
    /// <exception cref="ChangedMeanwhile">Someone else changed it.</exception>
    public Task<UnsharedTrays> HandleAsync(Guid batchId, int version, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => UnshareAsync(database, new Id<Batch>(batchId), version, actor, cancellation), cancellation);
    }

    private async Task<UnsharedTrays> UnshareAsync(
        NurseryDbContext database, Id<Batch> id, int version, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var locked = (await database.LockSharingAsync(id, cancellation)).ConvertAll(batch => batch.Id);
        var rows = (await database.BatchRows(actor.SiteId).Where(row => locked.Contains(row.Batch.Id)).ToListAsync(cancellation))
            .OrderBy(row => row.Share.FirstRow).ToList();
        var leaving = rows.Find(row => row.Batch.Id == id) ?? throw new NotFound("batch", "id", id.Value.ToString());
        Check(leaving, rows, version);

        var set = leaving.TraySet;
        var staying = rows.FindAll(row => row != leaving);
        var own = await OwnSetAsync(database, leaving, cancellation);
        database.TrayShares.RemoveRange(rows.Select(row => row.Share));
        await database.SaveChangesAsync(cancellation);
        database.Add(own);
        database.Add(new TrayShare { TraySetId = own.Id, BatchId = id, Cells = own.Trays * own.CellsPerTray });
        var shares = CloseUp(set, staying);
        database.AddRange(shares);
        Tell(database, site, actor, leaving, own, staying, shares);
        await database.SaveChangesAsync(cancellation);
        var follows = new List<string> { Stay(set, staying) };
        follows.AddRange(await ShrinkPlacesAsync(database, site, actor, set, cancellation));
        follows.Add($"{own.Code} has no place yet: reserve spaces for it");
        await TaskWriting.SyncAsync(database, [.. rows.Select(row => row.Batch)], site.Today(time), time, cancellation);
        return new UnsharedTrays(own.Code, own.Trays, leaving.Batch.Cells, follows);
    }

    private static void Check(BatchRow leaving, List<BatchRow> rows, int version)
    {
        if (rows.Count == 1)
        {
            throw new NotShared(leaving.Batch.Code);
        }

        if (rows.Find(row => row.Batch.State.Stage != BatchStage.Planned) is { } sown)
        {
            throw new SharedTraysSown(leaving.TraySet.Code, sown.Batch.Code);
        }

        if (leaving.Batch.Version != version)
        {
            throw new ChangedMeanwhile($"Batch {leaving.Batch.Code}", leaving.Batch.Version, []);
        }
    }

    /// <summary>Under the first number that is free: the shared trays may bear its first.</summary>
    private async Task<TraySet> OwnSetAsync(NurseryDbContext database, BatchRow leaving, CancellationToken cancellation)
    {
        var taken = await database.TraySets.Where(row => row.SiteId == leaving.Batch.SiteId && row.Code.StartsWith(leaving.Batch.Code + "-"))
            .Select(row => row.Code).ToListAsync(cancellation);
        return new TraySet
        {
            Id = NewId.Of<TraySet>(time),
            SiteId = leaving.Batch.SiteId,
            Code = Enumerable.Range(1, taken.Count + 1).Select(number => HumanCode.ForTraySet(leaving.Batch.Code, number)).First(code => !taken.Contains(code)),
            Trays = TraysFor(leaving.Share.Cells, leaving.TraySet),
            CellsPerTray = leaving.TraySet.CellsPerTray,
            TrayTypeId = leaving.TraySet.TrayTypeId,
            Footprint = leaving.TraySet.Footprint,
        };
    }

    /// <summary>Rows of cells dealt out again without a gap, or whole trays for the last one left.</summary>
    private static List<TrayShare> CloseUp(TraySet set, List<BatchRow> staying)
    {
        if (staying is [var last])
        {
            set.Trays = TraysFor(last.Share.Cells, set);
            return [new TrayShare { TraySetId = set.Id, BatchId = last.Batch.Id, Cells = set.Trays * set.CellsPerTray }];
        }

        var next = 1;
        var shares = new List<TrayShare>();
        foreach (var row in staying)
        {
            var share = new TrayShare
            {
                TraySetId = set.Id,
                BatchId = row.Batch.Id,
                Cells = row.Share.Cells,
                FirstRow = next,
                Rows = row.Share.Rows,
            };
            shares.Add(share);
            next += share.Rows!.Value;
        }

        var rows = CellGrid.Of(set.CellsPerTray).Rows;
        set.Trays = (next - 1 + rows - 1) / rows;
        return shares;
    }

    private void Tell(
        NurseryDbContext database, Site site, Actor actor, BatchRow leaving, TraySet own, List<BatchRow> staying, List<TrayShare> shares)
    {
        var codes = staying.ConvertAll(row => row.Batch.Code);
        leaving.Batch.Cells = own.Trays * own.CellsPerTray;
        leaving.Batch.Version++;
        database.Write(site, actor, time, new TraysUnshared(own.Code, own.Trays, leaving.Batch.Cells, codes), leaving.Batch.Id, own.Id);
        foreach (var (row, share) in staying.Zip(shares))
        {
            row.Batch.Cells = share.Cells;
            row.Batch.Version++;
            EntryValue value = share.Part(row.TraySet) is { } part
                ? new TraysShared(row.TraySet.Code, part, share.Cells, [.. codes.Where(code => code != row.Batch.Code)])
                : new TraysUnshared(row.TraySet.Code, row.TraySet.Trays, share.Cells, [leaving.Batch.Code]);
            database.Write(site, actor, time, value, row.Batch.Id, row.TraySet.Id);
        }
    }

    /// <summary>The trays that stay keep the first spaces of every place still ahead; the rest is free from today.</summary>
    private async Task<IReadOnlyList<string>> ShrinkPlacesAsync(
        NurseryDbContext database, Site site, Actor actor, TraySet set, CancellationToken cancellation)
    {
        var today = site.Today(time);
        var benchIds = await database.Reservations.Where(row => row.TraySetId == set.Id).Select(row => row.BenchId).ToListAsync(cancellation);
        var benches = (await database.LockBenchesAsync(benchIds, cancellation)).ToDictionary(bench => bench.Id);
        var rows = await database.Reservations.Where(row => row.TraySetId == set.Id && row.Days.End >= today).ToListAsync(cancellation);
        var change = new PlanChange(database, site, actor, time);
        var follows = new List<string>();
        foreach (var row in rows.Where(row => row.Trays.Last > set.Trays).OrderBy(row => row.Days.Start).ThenBy(row => row.Id))
        {
            var (bench, from, to) = (benches[row.BenchId], LocalDate.Max(today, row.Days.Start), row.To);
            var trays = set.Trays - row.Trays.First + 1;
            change.EndOn(row, from);
            if (trays > 0)
            {
                change.Hold(row, new SpaceRun(row.Trays.First, trays), bench, new SpaceRun(row.Spaces.First, set.SpacesFor(trays)), from, to);
            }

            var spaces = row.Spaces.Count - (trays > 0 ? set.SpacesFor(trays) : 0);
            follows.Add(string.Create(
                CultureInfo.InvariantCulture, $"Bench {bench.Code}, {Day(from)} to {Day(to)}: {spaces} {(spaces == 1 ? "space is" : "spaces are")} free again"));
        }

        if (follows.Count > 0)
        {
            await change.SaveAsync($"{set.Code}: fewer trays", cancellation);
        }

        return follows;
    }

    private static string Stay(TraySet set, List<BatchRow> staying) => string.Create(
        CultureInfo.InvariantCulture,
        $"{set.Code} has {set.Trays} {(set.Trays == 1 ? "tray" : "trays")} now, for {string.Join(", ", staying.Select(row => row.Batch.Code))}");

    private static int TraysFor(int cells, TraySet set) => (cells + set.CellsPerTray - 1) / set.CellsPerTray;

    private static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
}
