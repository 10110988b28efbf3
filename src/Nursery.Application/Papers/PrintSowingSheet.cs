using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Sowings;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Printing;
using Nursery.Printing.SowingSheets;

namespace Nursery.Application.Papers;

/// <summary>The sowing sheet of some days: what is to be sown and not sown yet, late ones first.</summary>
public sealed class PrintSowingSheet(IDbContextFactory<NurseryDbContext> databases, ListSowings listSowings, TimeProvider time)
{
    /// <param name="paper">Letter or A4; null is the site's, or letter when that is a roll.</param>
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">Days out of order.</exception>
    public async Task<byte[]> HandleAsync(
        LocalDate? from, LocalDate? to, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var list = await listSowings.HandleAsync(from, to, actor, cancellation);
        var days = list.Days.Select(day => (Title: SowingWords.Day(day.Day), day.Items))
            .Prepend((SowingWords.LateDays, list.Late))
            .Select(day => (day.Item1, Items: day.Item2.Where(item => item.SownOn is null).ToList()))
            .Where(day => day.Items.Count > 0).ToList();
        return SowingSheetDocument.Render(new SowingSheetModel(
            site.Imprint(time),
            site.Sheet(paper),
            SowingWords.Span(list.From, list.To),
            [.. days.Select(day => new SowingDay(day.Item1, SowingWords.Sum(day.Items), [.. day.Items.Select(item => LineOf(item, site.Units))]))],
            days.Exists(day => day.Items.Exists(item => item.Treated)) ? [SowingWords.Treated, SowingWords.Dust] : [SowingWords.Dust]));
    }

    private static SowingLine LineOf(SowingItem item, Units units) => new(
        item.BatchCode,
        item.VarietyName,
        item.CropName,
        item.LotCode is null ? null : item.Treated ? item.LotCode + ", treated" : item.LotCode,
        SowingWords.Trays(item),
        string.Create(CultureInfo.InvariantCulture, $"{item.SeedsPerCell} a cell"),
        item.SeedsToTake.ToString("N0", CultureInfo.InvariantCulture),
        SowingWords.Depth(item.DepthMm, units),
        SowingWords.Light(item.Light),
        item.Where is { } where ? $"{where.BenchCode}, {where.Spaces}" : "no place yet");
}
