using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>A batch that is to share trays.</summary>
/// <param name="BatchId">A planned batch in trays of its own.</param>
/// <param name="Version">The version it was read at.</param>
/// <param name="Rows">Rows of cells it takes, 1–10,000; null is what its orders need.</param>
public sealed record TrayPart(Guid BatchId, int Version, int? Rows);

/// <summary>2–24 batches, in the order their rows lie in the trays.</summary>
public sealed record ShareTraysRequest(IReadOnlyList<TrayPart> Parts);

/// <summary>What one batch takes: <paramref name="Where"/> names its rows of cells.</summary>
public sealed record SharedPart(
    Guid BatchId, string BatchCode, string CropName, string VarietyName, int Rows, string Where, int Cells, int CellsNeeded,
    LocalDate SowOn, LocalDate MoveOffOn);

/// <summary>The trays they share: the temperatures that suit all, the days they leave the heat, and what becomes of their places.</summary>
public sealed record SharedTrays(
    string TraySetCode, int Trays, int CellsPerTray, int RowsPerTray, int CellsInRow, int TraysSaved, int SpareRows,
    decimal MinC, decimal MaxC, LocalDate MoveOffFrom, LocalDate MoveOffTo,
    IReadOnlyList<SharedPart> Parts, IReadOnlyList<string> Follows);

/// <summary>Puts several small planned batches into one tray set, each in whole rows of cells of its own.</summary>
public sealed class ShareTrays(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="BandsDoNotMeet">No temperature suits all.</exception>
    /// <exception cref="MoveOffDaysApart">They leave the heat too far apart.</exception>
    /// <exception cref="OtherCells">Their trays differ.</exception>
    /// <exception cref="GrowOnApart">Some grow on warm, some cool.</exception>
    public Task<SharedTrays> HandleAsync(ShareTraysRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => ShareAsync(database, request, actor, cancellation), cancellation);
    }

    /// <summary>What it would be, tried in a transaction that is not kept.</summary>
    public async Task<SharedTrays> TryAsync(ShareTraysRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await using var transaction = await database.Database.BeginTransactionAsync(cancellation);
        return await ShareAsync(database, request, actor, cancellation);
    }

    private async Task<SharedTrays> ShareAsync(
        NurseryDbContext database, ShareTraysRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        new FieldChecks().Range("parts", request.Parts.Select(part => part.BatchId).Distinct().Count(), 2, 24)
            .Range("parts", request.Parts.Count, 2, 24).Done();
        await database.LockBatchesAsync(request.Parts.Select(part => new Id<Batch>(part.BatchId)), cancellation);
        var sharers = (await database.SharersAsync(site, site.Today(time), cancellation)).ToDictionary(row => row.Row.Batch.Id.Value);
        var chosen = request.Parts.Select(part => sharers.TryGetValue(part.BatchId, out var row)
            ? (Part: part, Row: row)
            : throw new NotFound("planned batch with trays of its own", "parts.batchId", part.BatchId.ToString())).ToList();
        if (chosen.Find(pair => pair.Row.Row.Batch.Version != pair.Part.Version) is { Row: { } changed })
        {
            throw new ChangedMeanwhile($"Batch {changed.Row.Batch.Code}", changed.Row.Batch.Version, []);
        }

        if (Sharing.WhyNot([.. chosen.Select(pair => pair.Row.Sharer)]) is { } why)
        {
            throw why;
        }

        var layout = RowLayout.Of(chosen);
        var places = new SharedPlaces(database, site, actor, time);
        var follows = await places.MoveAsync([.. chosen.Select(pair => pair.Row)], layout.Set, cancellation);
        await StoreAsync(database, site, actor, chosen, layout, cancellation);
        await TaskWriting.SyncAsync(database, [.. chosen.Select(pair => pair.Row.Row.Batch)], site.Today(time), time, cancellation);
        return layout.Result(chosen, follows);
    }

    private async Task StoreAsync(
        NurseryDbContext database,
        Domain.Sites.Site site,
        Actor actor,
        List<(TrayPart Part, SharerRow Row)> chosen,
        RowLayout layout,
        CancellationToken cancellation)
    {
        var old = chosen.ConvertAll(pair => pair.Row.Row.TraySet.Id);
        var batches = chosen.ConvertAll(pair => pair.Row.Row.Batch.Id);
        database.TrayShares.RemoveRange(await database.TrayShares
            .Where(share => old.Contains(share.TraySetId) && batches.Contains(share.BatchId)).ToListAsync(cancellation));
        await database.SaveChangesAsync(cancellation);
        var codes = chosen.ConvertAll(pair => pair.Row.Row.Batch.Code);
        foreach (var (row, share) in chosen.Zip(layout.Shares, (pair, share) => (pair.Row.Row, share)))
        {
            row.Batch.Cells = share.Cells;
            row.Batch.Version++;
            database.Add(share);
            database.Write(
                site, actor, time,
                new TraysShared(layout.Set.Code, share.Part(layout.Set)!, share.Cells, [.. codes.Where(code => code != row.Batch.Code)]),
                row.Batch.Id, layout.Set.Id);
        }

        await database.SaveChangesAsync(cancellation);

        // An emptied set stays only as long as the record of past days needs it.
        await database.TraySets
            .Where(set => old.Contains(set.Id) && set.Id != layout.Set.Id && !database.Reservations.Any(row => row.TraySetId == set.Id))
            .ExecuteDeleteAsync(cancellation);
    }
}
