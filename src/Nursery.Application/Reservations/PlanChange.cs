using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Npgsql;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;

namespace Nursery.Application.Reservations;

/// <summary>Replaces reservations by others in one transaction: past days stay, the constraint is asked once at the end,
/// and the ledger keeps both sides. The benches' rows are locked by the caller.</summary>
internal sealed class PlanChange(NurseryDbContext database, Site site, Actor actor, TimeProvider time)
{
    private readonly List<PlanRow> _before = [];
    private readonly List<Reservation> _after = [];

    /// <summary>Ends a reservation on a day; what it held before stays held.</summary>
    public void EndOn(Reservation reservation, LocalDate day)
    {
        _before.Add(RowOf(reservation));
        if (reservation.Days.Start < day)
        {
            reservation.Days = new DateInterval(reservation.Days.Start, day.PlusDays(-1));
            _after.Add(reservation);
        }
        else
        {
            database.Reservations.Remove(reservation);
        }
    }

    /// <summary>Holds spaces for trays; under the id they had before, when a change is taken back.</summary>
    public Reservation Hold(
        Reservation like,
        SpaceRun trays,
        Domain.Benches.Bench bench,
        SpaceRun spaces,
        LocalDate from,
        LocalDate to,
        Id<Reservation>? id = null)
    {
        var reservation = new Reservation
        {
            Id = id ?? NewId.Of<Reservation>(time),
            SiteId = like.SiteId,
            TraySetId = like.TraySetId,
            Trays = trays,
            BenchId = bench.Id,
            Capacity = bench.Capacity,
            Spaces = spaces,
            Days = new DateInterval(from, to.PlusDays(-1)),
        };
        database.Reservations.Add(reservation);
        _after.Add(reservation);
        return reservation;
    }

    /// <summary>Writes rows and ledger entry.</summary>
    /// <returns>The id of the entry, by which the change can be taken back.</returns>
    /// <exception cref="SpaceTaken">The constraint found two on one space.</exception>
    public async Task<Id<LedgerEntry>> SaveAsync(string what, CancellationToken cancellation)
    {
        var entry = Write(what);
        var first = _after.FirstOrDefault();
        try
        {
            await DeferAsync(database, cancellation);
            await database.SaveChangesAsync(cancellation);
            await CheckAsync(database, cancellation);
        }
        catch (Exception failure) when (failure.PostgresFailure()?.SqlState == PostgresErrorCodes.ExclusionViolation)
        {
            throw new SpaceTaken("of the plan", first?.Spaces ?? default, "another tray set", first?.To ?? site.Today(time));
        }

        return entry.Id;
    }

    /// <summary>Adds the ledger entry; for several changes that are saved together, between <see cref="DeferAsync"/> and
    /// <see cref="CheckAsync"/>.</summary>
    public LedgerEntry Write(string what, Id<Domain.Batches.Batch>? batch = null)
    {
        var first = _after.FirstOrDefault();
        return database.Write(
            site, actor, time, new Replanned(what, _before, [.. _after.Select(RowOf)]), batch,
            first?.TraySetId ?? _before[0].TraySet, first?.BenchId ?? _before[0].Bench);
    }

    /// <summary>Two may stand on one space until <see cref="CheckAsync"/>.</summary>
    public static Task DeferAsync(NurseryDbContext database, CancellationToken cancellation) =>
        database.Database.ExecuteSqlAsync($"SET CONSTRAINTS ex_reservations_space DEFERRED", cancellation);

    public static Task CheckAsync(NurseryDbContext database, CancellationToken cancellation) =>
        database.Database.ExecuteSqlAsync($"SET CONSTRAINTS ex_reservations_space IMMEDIATE", cancellation);

    public static PlanRow RowOf(Reservation reservation) => new(
        reservation.Id,
        reservation.TraySetId,
        reservation.Trays,
        reservation.BenchId,
        reservation.Spaces,
        LocalDatePattern.Iso.Format(reservation.Days.Start),
        LocalDatePattern.Iso.Format(reservation.To));
}
