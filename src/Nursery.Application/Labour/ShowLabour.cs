using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Labour;

/// <summary>Planned minutes of one kind of work on a day.</summary>
public sealed record LabourOfKind(TaskKind Kind, decimal Minutes);

/// <summary>A day's planned minutes against the minutes of all hands.</summary>
/// <param name="Day">The site's day.</param>
/// <param name="AvailableMinutes">Hands times minutes.</param>
/// <param name="Kinds">The work, most first.</param>
public sealed record LabourDay(LocalDate Day, int AvailableMinutes, IReadOnlyList<LabourOfKind> Kinds)
{
    public decimal PlannedMinutes => Kinds.Sum(kind => kind.Minutes);

    public bool IsTooMuch => PlannedMinutes > AvailableMinutes;
}

/// <summary>The next two weeks.</summary>
/// <param name="HandsAreAssumed">Whether the site told no hands of its own.</param>
/// <param name="Days">From today on.</param>
public sealed record LabourView(bool HandsAreAssumed, IReadOnlyList<LabourDay> Days);

/// <summary>Work against hands by day, if every task is done on its day and what stands on the benches stays there.</summary>
public sealed class ShowLabour(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    private const int DaysAhead = 14;

    public async Task<LabourView> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var batches = await database.Batches.AsNoTracking()
            .Where(batch => batch.SiteId == site.Id
                && ((batch.State.Stage != BatchStage.HandedOver && batch.State.Stage != BatchStage.Discarded)
                    || (batch.State.SownOn != null && batch.State.ClearedOn == null)))
            .OrderBy(batch => batch.Id)
            .ToListAsync(cancellation);
        var facts = await TaskFacts.LoadAsync(database, batches, today, cancellation);
        var work = facts
            .SelectMany(batch => TaskForecast.Of(batch, DaysAhead)
                .Select(task => (task.Day, task.Kind, Minutes: TaskMinutes.Of(task.Kind, batch.Trays, batch.Batch.Cells))))
            .Concat(await PlacesAsync(database, site, today, cancellation))
            .ToLookup(task => task.Day);
        return new LabourView(
            site.WorkWeek.IsAssumed,
            [
                .. Enumerable.Range(0, DaysAhead).Select(ahead => today.PlusDays(ahead)).Select(day => new LabourDay(
                    day,
                    site.WorkWeek.AvailableOn(day),
                    [
                        .. work[day].GroupBy(task => task.Kind)
                            .Select(kind => new LabourOfKind(kind.Key, kind.Sum(task => task.Minutes)))
                            .OrderByDescending(kind => kind.Minutes).ThenBy(kind => kind.Kind),
                    ])),
            ]);
    }

    /// <summary>The looks of every day and the scouting of every week, over the trays that stand there now.</summary>
    private static async Task<IReadOnlyList<(LocalDate Day, TaskKind Kind, decimal Minutes)>> PlacesAsync(
        NurseryDbContext database, Site site, LocalDate today, CancellationToken cancellation)
    {
        var places = await PlaceTasks.FactsAsync(database, site.Id, today, cancellation);
        return
        [
            .. places.SelectMany(place => TaskForecast.Of(place, DaysAhead)
                .Select(task => (task.Day, task.Kind, TaskMinutes.Of(task.Kind, place.Trays, 0)))),
        ];
    }
}
