using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Outages;

/// <summary>The days a bench or zone was out of use after all; <paramref name="To"/> is the first day it can be used, the first day when it
/// never was.</summary>
public sealed record ShortenedOutage(Guid Id, LocalDate From, LocalDate To);

/// <summary>Gives a bench or heat zone back to use sooner than was said. Trays that went elsewhere stay there until someone plans anew.</summary>
public sealed class GiveBack(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="id">Of the outage.</param>
    /// <param name="on">First day it can be used again, today or later and before the day that was said; null is today. On or before its first
    /// day it is as if it had never been out of use.</param>
    /// <param name="actor">Who plans.</param>
    /// <param name="cancellation">Ends it before anything is stored.</param>
    /// <exception cref="NotFound">No such outage on this site; one that never was is gone.</exception>
    /// <exception cref="PastIsFixed">It is over.</exception>
    public Task<ShortenedOutage> HandleAsync(Guid id, LocalDate? on, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => GiveBackAsync(database, new Id<Outage>(id), on, actor, cancellation), cancellation);
    }

    private async Task<ShortenedOutage> GiveBackAsync(NurseryDbContext database, Id<Outage> id, LocalDate? on, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var benchId = await database.Outages.Where(row => row.Id == id && row.SiteId == actor.SiteId)
            .Select(row => (Id<Bench>?)row.BenchId).SingleOrDefaultAsync(cancellation);
        if (benchId is { } locked)
        {
            await database.LockBenchesAsync([locked], cancellation);
        }

        // Read after the bench is locked: someone may have given it back a moment ago.
        var outage = await database.Outages.SingleOrDefaultAsync(row => row.Id == id && row.SiteId == actor.SiteId, cancellation)
            ?? throw new NotFound("bench or zone out of use", "id", id.Value.ToString());
        var today = site.Today(time);
        if (outage.To <= today)
        {
            throw new PastIsFixed("This time out of use");
        }

        var day = on ?? today;
        if (day < today || day >= outage.To)
        {
            throw new InvalidFields("on", Iso(day), $"{Iso(today)} (today) to {Iso(outage.To.PlusDays(-1))}");
        }

        var (from, to) = (outage.Days.Start, outage.To);
        if (day <= from)
        {
            database.Outages.Remove(outage);
        }
        else
        {
            outage.Days = new DateInterval(from, day.PlusDays(-1));
        }

        database.Write(site, actor, time, new GivenBack(outage.BenchId, outage.ZoneId, Iso(from), Iso(day), Iso(to)), bench: outage.BenchId);
        await database.SaveChangesAsync(cancellation);
        return new ShortenedOutage(id.Value, from, LocalDate.Max(from, day));
    }

    private static string Iso(LocalDate day) => LocalDatePattern.Iso.Format(day);
}
