using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Scenario;

/// <summary>The daily looks at benches and the weekly scouting of houses until the load day: done whenever the rules asked for them.</summary>
internal sealed class PlaceHistory(NurseryDbContext database, Site site, Func<LocalDate, EntryDraft> draftOn, TimeProvider time)
{
    public async Task LiveAsync(SiteFiles files, LocalDate loadDay, CancellationToken cancellation)
    {
        var stays = await StaysAsync(loadDay, cancellation);
        var houseOf = files.Benches.Values.ToDictionary(bench => bench.Id, bench => bench.HouseId);
        List<(TaskSubject Subject, List<Stay> Stays)> places =
        [
            .. files.Benches.Values.Select(bench => (TaskSubject.Of(bench), stays.Where(stay => stay.Bench == bench.Id).ToList())),
            .. files.Houses.Values.Select(house => (TaskSubject.Of(house), stays.Where(stay => houseOf[stay.Bench] == house.Id).ToList())),
        ];
        foreach (var place in places.Where(place => place.Stays.Count > 0))
        {
            Live(place.Subject, place.Stays, loadDay);
        }

        await database.SaveChangesAsync(cancellation);
        database.ChangeTracker.Clear();
        foreach (var (subject, _) in places)
        {
            await PlaceRefold.RunAsync(database, subject, loadDay, time, cancellation);
            database.ChangeTracker.Clear();
        }
    }

    private void Live(TaskSubject subject, List<Stay> stays, LocalDate loadDay)
    {
        LocalDate? doneOn = null;
        var occurrence = 1;
        for (var day = stays.Min(stay => stay.From); day < loadDay; day = day.PlusDays(1))
        {
            var here = stays.Where(stay => stay.From <= day && day < stay.To).ToList();
            LocalDate? since = here.Count == 0 ? null : here.Min(stay => stay.From);
            var facts = new PlaceFacts(subject, "", here.Count, here.Count, since, doneOn, occurrence, day);
            foreach (var task in TaskRules.Wanted(facts).Where(task => task.DueOn <= day))
            {
                database.Ledger.Add(draftOn(day).About(subject, new Done(task.Kind, task.Occurrence)));
                (doneOn, occurrence) = (day, occurrence + 1);
            }
        }
    }

    /// <summary>From when to when trays stood on benches; who carried them last says where they stand on the load day.</summary>
    private async Task<IReadOnlyList<Stay>> StaysAsync(LocalDate loadDay, CancellationToken cancellation)
    {
        var entries = await database.Ledger.AsNoTracking()
            .Where(entry => entry.SiteId == site.Id && (entry.Kind == LedgerKind.Placed || entry.Kind == LedgerKind.Moved))
            .ToListAsync(cancellation);
        return
        [
            .. entries.GroupBy(entry => entry.TraySetId).SelectMany(set =>
            {
                var steps = LedgerOrder.Effective([.. set]);
                return steps.Select((step, at) => new Stay(
                    ((Placement)step.Value).Bench, step.Day, at + 1 < steps.Count ? steps[at + 1].Day : loadDay.PlusDays(1)));
            }),
        ];
    }

    private sealed record Stay(Id<Bench> Bench, LocalDate From, LocalDate To);
}
