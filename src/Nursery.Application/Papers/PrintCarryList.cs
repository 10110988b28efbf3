using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;
using Nursery.Printing.CarryLists;

namespace Nursery.Application.Papers;

/// <summary>The moves the plan has from a day on, from where trays stand or lie before to where they go.</summary>
public sealed class PrintCarryList(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public const int MostDays = 60;

    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">Days out of range.</exception>
    public async Task<byte[]> HandleAsync(
        LocalDate? from, int? days, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var span = days ?? 7;
        new FieldChecks().Range("days", span, 1, MostDays).Done();
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var first = from ?? today;
        var last = first.PlusDays(span - 1);
        var moves = (await PlannedMoves.LoadAsync(database, site.Id, first, last, today, cancellation)).ToList();
        var rows = (await database.BatchRows(site.Id).AsNoTracking().ToListAsync(cancellation)).ToLookup(row => row.TraySet.Id);
        return CarryListDocument.Render(new CarryListModel(
            site.Imprint(time),
            site.Sheet(paper),
            first == last ? PaperWords.Day(first) : $"{PaperWords.Day(first)} – {PaperWords.Day(last)}",
            [
                .. moves.GroupBy(move => LocalDate.Max(move.On, first)).OrderBy(group => group.Key).Select(group => new CarryDay(
                    PaperWords.WeekDay(group.Key),
                    [.. group.Select(move => LineOf(move, [.. rows[move.TraySet]], group.Key)).OfType<CarryLine>()])).Where(day => day.Lines.Count > 0),
            ]));
    }

    private static CarryLine? LineOf(PlannedMove move, List<BatchRow> rows, LocalDate day)
    {
        var growing = rows.Where(row => row.Batch.State.Stage is not (BatchStage.HandedOver or BatchStage.Discarded)).ToList();
        if (growing.Count == 0)
        {
            return null;
        }

        var (set, late) = (growing[0].TraySet, Period.DaysBetween(move.On, day));
        return new CarryLine(
            growing.Count == 1 ? growing[0].Batch.Code : set.Code,
            growing.Count == 1
                ? $"{growing[0].Crop.Name} ‘{growing[0].Variety.Name}’"
                : PaperWords.Count(growing.Count, "variety", "varieties") + ", shared",
            PaperWords.Part(move.Trays, set.Trays),
            move.From?.Bench ?? "",
            move.From is { } place ? $"{place.House}, {PaperWords.Spaces(place.Spaces)}" : "from sowing",
            move.To.Bench,
            $"{move.To.House}, {PaperWords.Spaces(move.To.Spaces)}",
            late > 0 ? PaperWords.Count(late, "day", "days") + " late" : null);
    }
}
