using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Npgsql;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;
using Nursery.Planning;

namespace Nursery.Application.Reservations;

/// <summary>Spaces for trays of a set on a bench, from a day to the first day no longer held.
/// Without a first space the first free run that suits is taken.</summary>
public sealed record ReserveSpacesRequest(
    string TraySetCode, string BenchCode, int Trays, int? FirstSpace, LocalDate From, LocalDate To);

public sealed record ReservedSpaces(
    Guid Id, string BenchCode, int FirstSpace, int Spaces, LocalDate From, LocalDate To);

public sealed class ReserveSpaces(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="BenchIsFull">No free run long enough.</exception>
    /// <exception cref="SpaceTaken">The first space asked for is held.</exception>
    /// <exception cref="NotInUse">The bench or the zone is out of use on some of the days.</exception>
    /// <exception cref="TooCold">The zone's setpoint is below what the seed accepts.</exception>
    /// <exception cref="TooHot">It is above.</exception>
    public Task<ReservedSpaces> HandleAsync(
        ReserveSpacesRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => ReserveAsync(database, request, actor, cancellation), cancellation);
    }

    internal async Task<ReservedSpaces> ReserveAsync(
        NurseryDbContext database, ReserveSpacesRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var traySet = await database.TraySets.SingleOrDefaultAsync(
            set => set.Code == request.TraySetCode && set.SiteId == actor.SiteId, cancellation);
        var benchId = await database.Benches
            .Where(row => row.Code == request.BenchCode && row.SiteId == actor.SiteId && row.RetiredOn == null)
            .Select(row => (Id<Bench>?)row.Id).SingleOrDefaultAsync(cancellation);
        Check(request, traySet, benchId, site.Today(time));

        // Every writer locks the bench first: racing for the exclusion constraint alone ends in deadlocks.
        var bench = (await database.LockBenchesAsync([benchId!.Value], cancellation)).Single();
        var spaces = traySet!.SpacesFor(request.Trays);
        var held = await HeldSpaces.OnAsync(database, [bench.Id], request.From, request.To, cancellation);
        var temperatures = await BenchTemperatures.LoadAsync(
            database, bench, traySet.Id, request.From, request.To, cancellation);
        var first = request.FirstSpace is { } asked
            ? SpaceSearch.Asked(bench, asked, spaces, held, temperatures)
            : SpaceSearch.First(bench, spaces, request.From, request.To, held, temperatures);
        var reservation = new Reservation
        {
            Id = NewId.Of<Reservation>(time),
            SiteId = site.Id,
            TraySetId = traySet.Id,
            Trays = await FreeTraysAsync(database, traySet, request, cancellation),
            BenchId = bench.Id,
            Capacity = bench.Capacity,
            Spaces = new SpaceRun(first, spaces),
            Days = new DateInterval(request.From, request.To.PlusDays(-1)),
        };
        database.Reservations.Add(reservation);
        database.Write(site, actor, time, reservation.AsEntry(), traySet: traySet.Id, bench: bench.Id);
        await SaveAsync(database, bench, reservation, held, cancellation);
        return new ReservedSpaces(reservation.Id.Value, bench.Code, first, spaces, request.From, request.To);
    }

    private static void Check(ReserveSpacesRequest request, TraySet? traySet, Id<Bench>? bench, LocalDate today)
    {
        var checks = new FieldChecks();
        if (traySet is null)
        {
            checks.Fail("traySetCode", request.TraySetCode, "the code of a tray set of this site");
        }
        else
        {
            checks.Range("trays", request.Trays, 1, traySet.Trays);
        }

        if (bench is null)
        {
            checks.Fail("benchCode", request.BenchCode, "the code of a bench of this site in use");
        }

        if (request.From < today)
        {
            checks.Fail("from", Iso(request.From), $"{Iso(today)} (today) or later: past days never change");
        }

        if (request.To <= request.From || request.To > today.PlusYears(11))
        {
            checks.Fail("to", Iso(request.To), $"later than from, up to {Iso(today.PlusYears(11))}");
        }

        checks.Done();
    }

    /// <summary>Which trays of the set: the first run of numbers without a place on those days, else the first ones.</summary>
    private static async Task<SpaceRun> FreeTraysAsync(
        NurseryDbContext database, TraySet traySet, ReserveSpacesRequest request, CancellationToken cancellation)
    {
        var last = request.To.PlusDays(-1);
        var rows = await database.Reservations
            .Where(row => row.TraySetId == traySet.Id && row.Days.Start <= last && row.Days.End >= request.From)
            .ToListAsync(cancellation);
        var placed = rows.Select(row => new Held(
            Guid.Empty, row.Trays.First, row.Trays.Count, request.From.ToDateOnly(), request.To.ToDateOnly()));
        var first = FreeRuns.Of(1, traySet.Trays, placed, request.From.ToDateOnly(), request.To.ToDateOnly())
            .FirstOrDefault(run => run.Count >= request.Trays).First;
        return new SpaceRun(Math.Max(1, first), request.Trays);
    }

    private static async Task SaveAsync(
        NurseryDbContext database,
        Bench bench,
        Reservation reservation,
        IReadOnlyList<HeldBy> held,
        CancellationToken cancellation)
    {
        try
        {
            await database.SaveChangesAsync(cancellation);
        }
        catch (DbUpdateException failure)
            when (failure.PostgresFailure()?.SqlState == PostgresErrorCodes.ExclusionViolation)
        {
            // Only a writer that did not lock the bench gets us here; the constraint has the last word.
            var taken = held.FirstOrDefault(hold => hold.Run.Overlaps(reservation.Spaces));
            throw new SpaceTaken(
                bench.Code, reservation.Spaces, taken?.TraySetCode ?? "another tray set", taken?.Until ?? reservation.To);
        }
    }

    private static string Iso(LocalDate day) => LocalDatePattern.Iso.Format(day);
}
