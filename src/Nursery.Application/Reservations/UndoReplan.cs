using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;

namespace Nursery.Application.Reservations;

/// <summary>Takes a change of the plan back, on the day it was made, as long as nobody changed the same rows since.</summary>
public sealed class UndoReplan(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>The id of the new change, by which this one can be taken back in turn.</returns>
    /// <exception cref="GroundHasMoved">The rows are no longer what the change left.</exception>
    /// <exception cref="NotInUse">The bench they stood on is out of use by now.</exception>
    /// <exception cref="PastIsFixed">The change is of an earlier day.</exception>
    public Task<Guid> HandleAsync(Guid changeId, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => UndoAsync(database, changeId, actor, cancellation), cancellation);
    }

    private async Task<Guid> UndoAsync(NurseryDbContext database, Guid changeId, Actor actor, CancellationToken cancellation)
    {
        var id = new Id<LedgerEntry>(changeId);
        var entry = await database.Ledger.AsNoTracking()
            .SingleOrDefaultAsync(row => row.Id == id && row.SiteId == actor.SiteId, cancellation);
        if (entry?.Value is not Replanned change)
        {
            throw new NotFound("change of the plan", "changeId", changeId.ToString());
        }

        var site = await database.SiteOfAsync(actor, cancellation);
        if (entry.Day != site.Today(time))
        {
            throw new PastIsFixed("This change");
        }

        var benches = (await database.LockBenchesAsync(
            change.Before.Concat(change.After).Select(row => row.Bench), cancellation)).ToDictionary(bench => bench.Id);
        var ids = change.After.Select(row => row.Reservation).ToList();
        var now = await database.Reservations.Where(row => ids.Contains(row.Id)).ToListAsync(cancellation);
        if (now.Count != change.After.Count || now.Any(row => !change.After.Contains(PlanChange.RowOf(row))))
        {
            throw new GroundHasMoved(change.What);
        }

        await RefuseOutOfUseAsync(database, change, site.Today(time), cancellation);
        var back = new PlanChange(database, site, actor, time);
        foreach (var row in now)
        {
            back.EndOn(row, row.Days.Start);
        }

        foreach (var row in change.Before)
        {
            var like = new Reservation
            {
                Id = row.Reservation,
                SiteId = site.Id,
                TraySetId = row.TraySet,
                Trays = row.Trays,
                BenchId = row.Bench,
                Capacity = benches[row.Bench].Capacity,
                Spaces = row.Spaces,
                Days = new DateInterval(Day(row.From), Day(row.To).PlusDays(-1)),
            };

            // The id comes back too: the change before this one, which knows the row by it, can then be taken back as well.
            back.Hold(like, row.Trays, benches[row.Bench], row.Spaces, Day(row.From), Day(row.To), row.Reservation);
        }

        return (await back.SaveAsync($"Taken back: {change.What}", cancellation)).Value;
    }

    /// <summary>Trays never go back to where nothing may stand by now.</summary>
    private static async Task RefuseOutOfUseAsync(NurseryDbContext database, Replanned change, LocalDate today, CancellationToken cancellation)
    {
        foreach (var row in change.Before.Where(row => Day(row.To) > today && !change.After.Any(after => after.Bench == row.Bench && after.Spaces == row.Spaces)))
        {
            var from = LocalDate.Max(today, Day(row.From));
            var held = await HeldSpaces.OutOfUseAsync(database, [row.Bench], from, Day(row.To), cancellation);
            if (held.FirstOrDefault(hold => hold.Run.Overlaps(row.Spaces)) is { Out: { } notInUse })
            {
                throw notInUse;
            }
        }
    }

    private static LocalDate Day(string iso) => LocalDatePattern.Iso.Parse(iso).Value;
}
