using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Reservations;

/// <summary>Reserved trays to another bench or other spaces, from a day on.</summary>
/// <param name="ReservationId">The spaces they hold now.</param>
/// <param name="BenchCode">Where to.</param>
/// <param name="FirstSpace">From which space; null is the first free run that suits.</param>
/// <param name="Trays">Which trays of those the reservation holds; null is all.</param>
/// <param name="On">First day at the new place, today or later, within the reservation; null is today, or its first day when that is later.</param>
public sealed record MoveTraysRequest(
    Guid ReservationId, string BenchCode, int? FirstSpace, SpaceRun? Trays = null, LocalDate? On = null);

/// <summary>Where the trays would stand, and the id by which the move can be taken back (null in a trial).</summary>
public sealed record MovedReservation(
    Guid? ChangeId, string TraySetCode, string BenchCode, int FirstSpace, int Spaces, LocalDate From, LocalDate To);

/// <summary>Moves trays in the plan. Past days never change: what was held until today stays held in the record.</summary>
public sealed class MoveTrays(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="Refusal">It does not fit, and why.</exception>
    public Task<MovedReservation> HandleAsync(
        MoveTraysRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => MoveAsync(database, request, actor, trial: false, cancellation), cancellation);
    }

    /// <summary>What would happen; nothing is stored. This is what the screen says while trays are dragged.</summary>
    /// <exception cref="Refusal">It does not fit, and why.</exception>
    public async Task<MovedReservation> TryAsync(
        MoveTraysRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        return await MoveAsync(database, request, actor, trial: true, cancellation);
    }

    private async Task<MovedReservation> MoveAsync(
        NurseryDbContext database, MoveTraysRequest request, Actor actor, bool trial, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var reservationId = new Id<Reservation>(request.ReservationId);
        var (from, to) = await BenchesAsync(database, reservationId, request.BenchCode, actor, cancellation);
        var benches = trial
            ? await database.Benches.Where(bench => bench.Id == from || bench.Id == to).ToListAsync(cancellation)
            : await database.LockBenchesAsync([from, to], cancellation);

        // Read after the benches are locked: someone may have moved it a moment ago.
        var reservation = await database.Reservations.SingleOrDefaultAsync(row => row.Id == reservationId, cancellation)
            ?? throw new GroundHasMoved("The move");
        var traySet = await database.TraySets.SingleAsync(set => set.Id == reservation.TraySetId, cancellation);
        var bench = benches.Single(row => row.Id == to);
        var trays = request.Trays ?? reservation.Trays;
        var on = request.On ?? LocalDate.Max(site.Today(time), reservation.Days.Start);
        Check(reservation, trays, on, site.Today(time));

        var spaces = traySet.SpacesFor(trays.Count);
        var held = await HeldByOthersAsync(database, reservation, trays, traySet, bench, on, cancellation);
        var temperatures = await BenchTemperatures.LoadAsync(
            database, bench, traySet.Id, on, reservation.To, cancellation);
        var first = request.FirstSpace is { } asked
            ? SpaceSearch.Asked(bench, asked, spaces, held, temperatures)
            : SpaceSearch.First(bench, spaces, on, reservation.To, held, temperatures);
        var result = new MovedReservation(null, traySet.Code, bench.Code, first, spaces, on, reservation.To);
        if (trial)
        {
            return result;
        }

        var end = reservation.To;
        var left = benches.Single(row => row.Id == from);
        var change = new PlanChange(database, site, actor, time);
        change.EndOn(reservation, on);
        foreach (var (stay, stayed) in TraysThatStay(reservation, trays, traySet))
        {
            change.Hold(reservation, stay, left, stayed, on, end);
        }

        change.Hold(reservation, trays, bench, new SpaceRun(first, spaces), on, end);
        var what = string.Create(
            CultureInfo.InvariantCulture, $"{traySet.Code}: {trays.Count} trays from bench {left.Code} to {bench.Code}");
        var entry = await change.SaveAsync(what, cancellation);
        return result with { ChangeId = entry.Value };
    }

    private static async Task<(Id<Bench> From, Id<Bench> To)> BenchesAsync(
        NurseryDbContext database, Id<Reservation> id, string benchCode, Actor actor, CancellationToken cancellation)
    {
        var from = await database.Reservations.Where(row => row.Id == id && row.SiteId == actor.SiteId)
            .Select(row => (Id<Bench>?)row.BenchId).SingleOrDefaultAsync(cancellation)
            ?? throw new NotFound("reservation", "reservationId", id.ToString());
        var to = await database.Benches
            .Where(row => row.Code == benchCode && row.SiteId == actor.SiteId && row.RetiredOn == null)
            .Select(row => (Id<Bench>?)row.Id).SingleOrDefaultAsync(cancellation)
            ?? throw new InvalidFields("benchCode", benchCode, "the code of a bench of this site in use");
        return (from, to);
    }

    private static void Check(Reservation reservation, SpaceRun trays, LocalDate on, LocalDate today)
    {
        var checks = new FieldChecks();
        var earliest = LocalDate.Max(today, reservation.Days.Start);
        if (reservation.Days.End < today)
        {
            throw new PastIsFixed("This reservation");
        }

        if (on < earliest || on > reservation.Days.End)
        {
            checks.Fail("on", Iso(on), $"{Iso(earliest)} to {Iso(reservation.Days.End)}, the days still held");
        }

        if (trays.Count < 1 || !reservation.Trays.Contains(trays))
        {
            checks.Fail("trays", trays.ToString(), $"trays of {reservation.Trays}");
        }

        checks.Done();
    }

    /// <summary>What is held on the bench from that day on, without the spaces the moving trays leave.</summary>
    private static async Task<IReadOnlyList<HeldBy>> HeldByOthersAsync(
        NurseryDbContext database,
        Reservation reservation,
        SpaceRun trays,
        TraySet traySet,
        Bench bench,
        LocalDate on,
        CancellationToken cancellation)
    {
        var held = await HeldSpaces.OnAsync(database, [bench.Id], on, reservation.To, cancellation, except: reservation.Id);
        return reservation.BenchId != bench.Id
            ? held
            :
            [
                .. held,
                .. TraysThatStay(reservation, trays, traySet)
                    .Select(stay => new HeldBy(bench.Id, stay.Spaces, traySet.Code, on, reservation.To)),
            ];
    }

    /// <summary>The trays before and after the moving ones, with the spaces they keep.</summary>
    internal static IEnumerable<(SpaceRun Trays, SpaceRun Spaces)> TraysThatStay(
        Reservation reservation, SpaceRun moving, TraySet traySet)
    {
        var before = moving.First - reservation.Trays.First;
        if (before > 0)
        {
            yield return (new SpaceRun(reservation.Trays.First, before), new SpaceRun(reservation.Spaces.First, traySet.SpacesFor(before)));
        }

        var after = reservation.Trays.Last - moving.Last;
        if (after > 0)
        {
            var spaces = traySet.SpacesFor(after);
            yield return (new SpaceRun(moving.Last + 1, after), new SpaceRun(reservation.Spaces.Last - spaces + 1, spaces));
        }
    }

    private static string Iso(LocalDate day) => LocalDatePattern.Iso.Format(day);
}
