using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Benches;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Printing.RoundSheets;

namespace Nursery.Application.Papers;

/// <summary>The open tasks of a day on paper, in walking order, for when there is no tablet.</summary>
public sealed class PrintRoundSheet(
    IDbContextFactory<NurseryDbContext> databases, ListTasks listTasks, ShowHouses showHouses, TimeProvider time)
{
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No such house.</exception>
    public async Task<byte[]> HandleAsync(
        string? house, LocalDate? on, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        Site site;
        await using (var database = await databases.CreateDbContextAsync(cancellation))
        {
            site = await database.SiteOfAsync(actor, cancellation);
        }

        var day = on ?? site.Today(time);
        var houses = (await showHouses.HandleAsync(day, actor, cancellation)).Houses;
        if (house is not null && houses.All(row => row.Code != house))
        {
            throw new InvalidFields("house", house, string.Join(", ", houses.Select(row => row.Code)));
        }

        var tasks = (await listTasks.HandleAsync(day, actor, cancellation))
            .Where(task => task.State == TaskState.Open && (house is null || task.House == house)).DistinctBy(task => task.Id).ToList();
        var number = await RoundSheetNumbers.OfAsync(databases, site, day, [.. tasks.Select(task => task.Id)], time, cancellation);
        var places = new StopWords(houses, site.Units);
        return RoundSheetDocument.Render(new RoundSheetModel(
            site.Imprint(time),
            site.Sheet(paper),
            number,
            PaperWords.WeekDay(day),
            houses.FirstOrDefault(row => row.Code == house)?.Name ?? "all houses",
            [
                .. tasks.Select((task, i) => (Task: task, Line: i + 1)).GroupBy(row => (row.Task.House, row.Task.BenchCode))
                    .Select(stop => new RoundSheetStop(
                        places.Of(stop.Key.House, stop.Key.BenchCode), [.. stop.Select(row => LineOf(row.Task, row.Line))])),
            ]));
    }

    private static RoundSheetLine LineOf(TaskItem task, int line) => new(
        line,
        TaskTitles.Of(task.Kind),
        task.BatchCode ?? "",
        task.Subject,
        task.Trays == 0 ? "" : PaperWords.Trays(task.Trays) + (task.FirstSpace is { } first && task.LastSpace is { } last
            ? ", " + PaperWords.Spaces(new SpaceRun(first, last - first + 1))
            : ""),
        task.NextBench is { } next && task.Kind == TaskKind.MoveOffHeat ? $"{task.Why}; to bench {next}" : task.Why,
        task.Kind == TaskKind.EmergenceCheck ? "seedlings" : null);
}
