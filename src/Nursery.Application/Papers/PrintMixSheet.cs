using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Sowings;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Printing.MixSheets;

namespace Nursery.Application.Papers;

/// <summary>The mix sheet of some days: how much growing mix to prepare for what is not sown yet, and what to stir in.</summary>
public sealed class PrintMixSheet(IDbContextFactory<NurseryDbContext> databases, ListSowings listSowings, TimeProvider time)
{
    /// <param name="from">Null is the Monday of this week.</param>
    /// <param name="to">The last day; null is six days later.</param>
    /// <param name="paper">Letter or A4; null is the site's, or letter when that is a roll.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">Days out of order.</exception>
    public async Task<byte[]> HandleAsync(
        LocalDate? from, LocalDate? to, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var list = await listSowings.HandleAsync(from, to, actor, cancellation);
        var days = list.Days.Select(day => (Title: SowingWords.Day(day.Day), day.Mix)).Prepend((Title: SowingWords.LateDays, Mix: list.LateMix));
        return MixSheetDocument.Render(new MixSheetModel(
            site.Imprint(time),
            site.Sheet(paper),
            SowingWords.Span(list.From, list.To),
            $"{SowingWords.Dust} {SowingWords.Lifting}",
            [.. days.Where(day => day.Mix is not null).Select(day => new MixDay(day.Title, MixWords.Sum(day.Mix!, site.Units) + ".", LinesOf(day.Mix!, site.Units)))]));
    }

    private static List<MixLine> LinesOf(MixNeed mix, Units units) =>
    [
        new("growing mix", MixWords.Liters(mix.Liters, units), "loosened and moistened; with 10 % for settling and 5 % for waste, from memory"),
        .. mix.Amendments.Select(amendment => new MixLine(
            amendment.Name, MixWords.Grams(amendment.Grams, units), Invariant($"{amendment.GramsPerCubicMeter:0.#} g a cubic meter; follow its label"))),
        .. mix.Trays.Select(size => new MixLine(
            Invariant($"trays of {size.CellsPerTray}"), MixWords.Liters(size.Liters, units), Invariant($"{size.Cells:N0} cells of {size.CellMilliliters:0.#} mL, {size.From}"))),
    ];

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
