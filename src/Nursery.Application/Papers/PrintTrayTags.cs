using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;
using Nursery.Printing.TrayTags;

namespace Nursery.Application.Papers;

/// <summary>Which trays get tags: of one batch or tray set, of a house, or of a sowing day; of all that grow when nothing is named.</summary>
public sealed record TrayTagsRequest(string? Code = null, string? House = null, LocalDate? SowOn = null, TagPaper? Paper = null);

/// <summary>A tag for every tray.</summary>
public sealed class PrintTrayTags(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>Tags one answer gives, drawn in a fraction of a second; more are printed in the background by <see cref="StartTagsRun"/>.</summary>
    public const int MostAtOnce = 300;

    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No batch or tray set of that code, or no such house.</exception>
    /// <exception cref="TooManyTags">More than <see cref="MostAtOnce"/>.</exception>
    public async Task<byte[]> HandleAsync(TrayTagsRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var model = await ModelAsync(request, actor, cancellation);
        return model.Tags <= MostAtOnce ? TrayTagsDocument.Render(model) : throw new TooManyTags(model.Tags, MostAtOnce);
    }

    /// <summary>The first pages, up to <see cref="MostAtOnce"/> tags, each numbered as a page of the whole; and how many tags there are in all.</summary>
    public async Task<(byte[] Pdf, int Tags)> PreviewAsync(TrayTagsRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var model = await ModelAsync(request, actor, cancellation);
        using var print = new TrayTagsPrint(model);
        while (print.Drawn < MostAtOnce && print.DrawNext())
        {
            cancellation.ThrowIfCancellationRequested();
        }

        return (print.Save(), model.Tags);
    }

    /// <summary>How many tags it would be.</summary>
    public async Task<int> CountAsync(TrayTagsRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        return (await ModelAsync(request, actor, cancellation)).Tags;
    }

    internal async Task<TrayTagsModel> ModelAsync(TrayTagsRequest request, Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var rows = await database.BatchRows(actor.SiteId).AsNoTracking().ToListAsync(cancellation);
        var inHouse = request.House is null ? null : await InHouseAsync(database, site, request.House, cancellation);
        var sets = rows.Where(row => PaperWords.Pattern(row.Batch.State.Stage) is not null)
            .Where(row => request.Code is null || Names(row, request.Code))
            .Where(row => inHouse is null || inHouse.Contains(row.TraySet.Id))
            .Where(row => request.SowOn is null || (row.Batch.State.SownOn ?? row.Batch.SowOn) == request.SowOn)
            .GroupBy(row => row.TraySet.Id)
            .Select(group => group.OrderBy(row => row.Batch.Code, StringComparer.Ordinal).ToList())
            .OrderBy(set => set[0].Batch.SowOn).ThenBy(set => set[0].TraySet.Code, StringComparer.Ordinal)
            .ToList();
        if (request.Code is { } code && !rows.Any(row => Names(row, code)))
        {
            throw new InvalidFields("code", code, "the code of a batch or tray set of this site");
        }

        var sharers = rows.ToLookup(row => row.TraySet.Id);
        var next = await NextSteps.LoadAsync(database, site.Id, cancellation);
        return new TrayTagsModel(
            site.Imprint(time),
            site.PublicAddress,
            StockOf(request.Paper, site.Paper),
            [.. sets.SelectMany(set => TagsOf([.. Growing(sharers[set[0].TraySet.Id])], next))]);
    }

    private static IEnumerable<BatchRow> Growing(IEnumerable<BatchRow> rows) => rows
        .Where(row => PaperWords.Pattern(row.Batch.State.Stage) is not null)
        .OrderBy(row => row.Share.FirstRow).ThenBy(row => row.Batch.Code, StringComparer.Ordinal);

    private static bool Names(BatchRow row, string code) =>
        string.Equals(row.Batch.Code, code, StringComparison.OrdinalIgnoreCase)
        || string.Equals(row.TraySet.Code, code, StringComparison.OrdinalIgnoreCase);

    private async Task<HashSet<Id<TraySet>>> InHouseAsync(
        NurseryDbContext database, Site site, string code, CancellationToken cancellation)
    {
        var house = await database.Houses.AsNoTracking()
            .SingleOrDefaultAsync(row => row.SiteId == site.Id && row.Code == code, cancellation) ?? throw new InvalidFields("house", code, "the code of a house of this site");
        var places = await TrayPlaces.LoadAsync(database, site.Id, site.Today(time), cancellation);
        return [.. places.Where(set => set.Any(place => place.House == house.Name)).Select(set => set.Key)];
    }

    /// <summary>Trays of one batch all say the same; of trays that several share, each says which rows in it are whose.</summary>
    private static IEnumerable<TrayTagSet> TagsOf(List<BatchRow> rows, NextSteps next)
    {
        var (traySet, stage) = (rows[0].TraySet, PaperWords.Pattern(rows[0].Batch.State.Stage)!.Value);
        var soonest = rows.Select(row => next.Of(row.Batch.Id)).FirstOrDefault(step => step is not null);
        if (rows.All(row => row.Share.FirstRow is null))
        {
            return [new TrayTagSet(traySet.Code, traySet.Trays, stage, soonest, [.. rows.Select(row => ShareOf(row, null))])];
        }

        return Enumerable.Range(1, traySet.Trays).Select(tray => new TrayTagSet(
            traySet.Code,
            traySet.Trays,
            stage,
            soonest,
            [.. rows.Select(row => (Row: row, Part: row.Share.PartIn(traySet, tray))).Where(own => own.Part is not null).Select(own => ShareOf(own.Row, own.Part))],
            Only: tray)).Where(tag => tag.Shares.Count > 0);
    }

    private static TrayTagShare ShareOf(BatchRow row, string? cells) => new(
        row.Batch.Code,
        row.Variety.Name,
        row.Crop.Name,
        row.Lot?.Code,
        row.Batch.State.SownOn is { } sown ? PaperWords.Day(sown) : null,
        cells);

    private static TagStock StockOf(TagPaper? paper, PaperSize ofSite) => paper switch
    {
        TagPaper.Letter => TagStock.Letter,
        TagPaper.A4 => TagStock.A4,
        TagPaper.Labels => TagStock.Labels,
        TagPaper.Stakes => TagStock.Stakes,
        null => ofSite switch
        {
            PaperSize.Letter => TagStock.Letter,
            PaperSize.A4 => TagStock.A4,
            PaperSize.Roll => TagStock.Labels,
            _ => throw new ArgumentOutOfRangeException(nameof(ofSite), ofSite, "a paper without tags"),
        },
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "a paper without tags"),
    };
}
