using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Reservations;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Plans.Changes;

/// <summary>What a proposal says of running trays, on the nursery as it is now: why it no longer fits, and writing it.</summary>
internal sealed class RunningPlaces(SeasonRows rows, IReadOnlyList<RunningSet> sets, LocalDate today)
{
    private readonly Dictionary<string, Bench> _benches = rows.Benches.ToDictionary(bench => bench.Code);

    /// <summary>Why it cannot be accepted.</summary>
    /// <param name="chosen">Tray sets that get other places in the same proposal.</param>
    public IEnumerable<string> Reasons(IReadOnlySet<Id<TraySet>> chosen)
    {
        var mine = sets.Select(set => new Id<TraySet>(set.TraySetId)).ToHashSet();
        var others = rows.Places.Where(group => !mine.Contains(group.Key) && !chosen.Contains(group.Key)).SelectMany(group => group).ToLookup(place => place.BenchId);
        foreach (var set in sets)
        {
            if (Moved(set) is { } moved)
            {
                yield return moved;
                continue;
            }

            foreach (var hold in set.Holds)
            {
                if (Blocked(set, hold, others) is { } blocked)
                {
                    yield return blocked;
                    break;
                }
            }
        }
    }

    /// <summary>The season with the trays where they would stand; only when there are no reasons.</summary>
    public SeasonRows Applied() => RunningSets.Applied(rows, sets).Rows;

    /// <summary>Whole weeks for which zones must be set for the trays.</summary>
    public IEnumerable<ProposedSetpoint> Setpoints() => (
        from set in sets
        from hold in set.Holds
        where hold.SetpointF is not null
        from zone in rows.ZonesUnder(_benches[hold.Bench].Id, hold.Run)
        where zone.Over(LocalDate.Max(today, hold.From), hold.To).Any(setpointC => !ZoneLevels.F(setpointC).Equals(hold.SetpointF.GetValueOrDefault()))
        let monday = hold.From.PlusDays(1 - (int)hold.From.DayOfWeek)
        select new ProposedSetpoint(
            zone.Zone.Code, ZoneLevels.C(hold.SetpointF.GetValueOrDefault()), LocalDate.Max(today, monday), hold.To.PlusDays((8 - (int)hold.To.DayOfWeek) % 7)))
        .Distinct();

    public IEnumerable<Id<Batch>> Batches => rows.Batches.Where(row => sets.Any(set => set.TraySetId == row.TraySet.Id.Value)).Select(row => row.Batch.Id);

    /// <summary>Adds the changes; the caller has deferred the constraint and locked benches and batches.</summary>
    public async Task WriteAsync(
        NurseryDbContext database, Domain.Sites.Site site, Actor actor, TimeProvider time, IReadOnlyList<Batch> batches, CancellationToken cancellation)
    {
        var ids = sets.SelectMany(set => set.Ends).Select(end => new Id<Reservation>(end.Reservation)).ToList();
        var ending = await database.Reservations.Where(row => ids.Contains(row.Id)).ToDictionaryAsync(row => row.Id.Value, cancellation);
        foreach (var set in sets)
        {
            var ofSet = rows.Batches.Where(row => row.TraySet.Id.Value == set.TraySetId).ToList();
            var change = new PlanChange(database, site, actor, time);
            foreach (var end in set.Ends)
            {
                change.EndOn(ending[end.Reservation], end.On);
            }

            foreach (var hold in set.Holds)
            {
                var bench = _benches[hold.Bench];
                change.Hold(hold.AsReservation(ofSet[0].TraySet, bench, default), new SpaceRun(hold.FirstTray, hold.Trays), bench, hold.Run, hold.From, hold.To);
            }

            if (set.Ends.Count + set.Holds.Count > 0)
            {
                change.Write(set.Change?.Sentence ?? set.Code, ofSet.Count == 1 ? ofSet[0].Batch.Id : null);
            }

            foreach (var batch in set.Slip == 0 ? [] : batches.Where(batch => ofSet.Exists(row => row.Batch.Id == batch.Id)))
            {
                Later(database, site, actor, time, batch, ofSet[0].TraySet, set.Slip);
            }
        }
    }

    private void Later(NurseryDbContext database, Domain.Sites.Site site, Actor actor, TimeProvider time, Batch batch, TraySet traySet, int days)
    {
        if (batch.State.Stage == BatchStage.Planned)
        {
            batch.SowOn = LocalDate.Max(today, batch.SowOn.PlusDays(days));
            database.Write(
                site, actor, time, new BatchReplanned(traySet.Trays, NodaTime.Text.LocalDatePattern.Iso.Format(batch.SowOn), null), batch.Id, traySet.Id);
        }

        batch.ReadyOn = LocalDate.Max(today, batch.ReadyOn.PlusDays(days));
        batch.Version++;
    }

    private string? Moved(RunningSet set)
    {
        var ofSet = rows.Batches.Where(row => row.TraySet.Id.Value == set.TraySetId).ToList();
        if (ofSet.Count == 0)
        {
            return $"{set.Code} is gone by now";
        }

        if (ofSet.Count != set.Ready.Count || ofSet.Exists(row => !set.Ready.TryGetValue(row.Batch.Code, out var ready) || ready != row.Batch.ReadyOn))
        {
            return $"{set.Code} was changed since";
        }

        if (SeasonProblems.Places(rows.Places[ofSet[0].TraySet.Id]) != set.Places)
        {
            return $"{set.Code} was given other spaces since";
        }

        return set.Ends.Select(end => end.On).Concat(set.Holds.Select(hold => hold.From)).DefaultIfEmpty(today).Min() is var on && on < today
            ? $"{set.Code} should have been carried on {EventWords.Day(on)}"
            : null;
    }

    private string? Blocked(RunningSet set, RunningHold hold, ILookup<Id<Bench>, Reservation> others)
    {
        if (!_benches.TryGetValue(hold.Bench, out var bench) || hold.Run.Last > bench.Capacity)
        {
            return $"Bench {hold.Bench} is no longer there for {set.Code}";
        }

        if (!hold.Stuck && rows.OutOfUse(bench.Id, hold.Run, hold.From, hold.To) is { } lost)
        {
            return $"{set.Code} has no place: {lost}";
        }

        return others[bench.Id].FirstOrDefault(other => ProposedPlaces.Meets(other, hold.Run, hold.From, hold.To)) is { } taken
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{set.Code} cannot have {hold.Run} of bench {hold.Bench}: {rows.Batches.FirstOrDefault(row => row.TraySet.Id == taken.TraySetId)?.TraySet.Code ?? "another tray set"} holds spaces there until {EventWords.Day(taken.To)}")
            : null;
    }
}
