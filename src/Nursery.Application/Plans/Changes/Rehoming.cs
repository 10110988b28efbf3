using System.Globalization;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Plans.Changes;

/// <summary>Carries trays that are not the plan's to time anew over something that happened: where they hold spaces they stay; what lost its
/// place, or stays longer than its place is free, is given another one, in parts if it must. The planner has a like rule for plans
/// (RunningTrays); this one is for reservations: tray by tray, hardening benches too.</summary>
internal sealed class Rehoming
{
    private readonly SeasonRows _rows;
    private readonly LocalDate _today;
    private readonly FreePlaces _free;
    private readonly Dictionary<Id<Bench>, Bench> _benches;
    private readonly List<string> _homeless = [];

    private Rehoming(SeasonRows rows, LocalDate today, LocalDate start, IReadOnlySet<Id<TraySet>> affected)
    {
        (_rows, _today) = (rows, today);
        _benches = rows.Benches.ToDictionary(bench => bench.Id);
        _free = new FreePlaces(rows, start, affected);
    }

    /// <summary>A part of a stay that cannot be where it is.</summary>
    private sealed record Move(Reservation Place, Bench Bench, LocalDate From, LocalDate To, string? Out, bool Whole);

    /// <summary>What becomes of a tray set, as it is found.</summary>
    private sealed class Draft(IGrouping<Id<TraySet>, SeasonBatch> set, int slip)
    {
        public readonly IReadOnlyList<SeasonBatch> Batches = [.. set];
        public readonly int Slip = slip;
        public readonly List<RunningEnd> Ends = [];
        public readonly List<RunningHold> Holds = [];
        public readonly List<Move> Moves = [];
        public readonly List<string> Words = [];
        public bool Moved;

        public TraySet Set => Batches[0].TraySet;

        public string Code => Batches.Count == 1 && Batches[0].Sharing == 1 ? Batches[0].Batch.Code : Set.Code;
    }

    /// <param name="rows">The season with everything that is out of use.</param>
    /// <param name="today">First day that can still be changed.</param>
    /// <param name="start">First day of the season, a Monday.</param>
    /// <param name="slips">By batch code: days later; below 0 sooner.</param>
    public static (IReadOnlyList<RunningSet> Sets, IReadOnlyList<string> Homeless) Of(
        SeasonRows rows, LocalDate today, LocalDate start, IReadOnlyDictionary<string, int> slips)
    {
        var moving = rows.Moving();
        var drafts = rows.Batches.Where(row => !moving.Contains(row.TraySet.Id)).GroupBy(row => row.TraySet.Id)
            .Select(set => new Draft(set, set.Select(row => slips.GetValueOrDefault(row.Batch.Code)).MaxBy(Math.Abs)))
            .Where(draft => draft.Slip != 0 || rows.Places[draft.Set.Id].Any(place => place.To > today
                && rows.OutOfUse(place.BenchId, place.Spaces, LocalDate.Max(today, place.Days.Start), place.To) is not null))
            .OrderBy(draft => draft.Slip != 0).ToList();
        var rehoming = new Rehoming(rows, today, start, drafts.Select(draft => draft.Set.Id).ToHashSet());

        // What can stay comes first, so that nobody who need not move has to.
        foreach (var draft in drafts)
        {
            rehoming.Keep(draft);
        }

        foreach (var draft in drafts)
        {
            draft.Moves.ForEach(move => rehoming.Place(draft, move));
        }

        return ([.. drafts.Select(rehoming.Written)], rehoming._homeless);
    }

    private void Keep(Draft draft)
    {
        foreach (var place in _rows.Places[draft.Set.Id].Where(place => place.To > _today && _benches.ContainsKey(place.BenchId))
            .OrderBy(place => place.Days.Start).ThenBy(place => place.Trays.First))
        {
            Keep(draft, place, _benches[place.BenchId]);
        }
    }

    /// <summary>A stay keeps its spaces from today, or from the day it begins, to the first day it cannot have them.</summary>
    private void Keep(Draft draft, Reservation place, Bench bench)
    {
        var there = place.Days.Start < _today || (place.Days.Start == _today && draft.Batches.Any(row => row.Batch.State.Stage != BatchStage.Planned));
        var from = there ? place.Days.Start : LocalDate.Max(_today, place.Days.Start.PlusDays(draft.Slip));
        var to = LocalDate.Max(_today, place.To.PlusDays(draft.Slip));
        var first = LocalDate.Max(_today, from);
        if (to <= first)
        {
            draft.Ends.Add(new RunningEnd(place.Id.Value, LocalDate.Max(_today, place.Days.Start)));
            draft.Words.Add($"leave bench {bench.Code} on {EventWords.Day(LocalDate.Max(_today, place.Days.Start))}");
            return;
        }

        var until = _free.FirstTaken(bench, place.Spaces, first, to) ?? to;
        var asBefore = from == place.Days.Start;
        if ((asBefore ? place.To : from) is var more && more < until)
        {
            (until, var setpoint) = Heated(draft, place, more, until);
            Hold(draft, place, bench, more, until, setpoint);
        }

        if (!asBefore || until < place.To)
        {
            draft.Ends.Add(new RunningEnd(place.Id.Value, asBefore ? until : place.Days.Start));
        }

        if (until > first)
        {
            _free.Take(bench, place.Spaces, first, until, SetpointOn(place, first));
        }

        if (until < to)
        {
            draft.Moves.Add(new Move(
                place, bench, until, to, _rows.OutOfUse(bench.Id, place.Spaces, until, until.PlusDays(1)), asBefore && until < place.To && to == place.To));
        }
        else if (to != place.To)
        {
            draft.Words.Add($"{RunningSets.Trays(place.Trays)} on bench {bench.Code} until {EventWords.Day(to)} instead of {EventWords.Day(place.To)}");
        }
    }

    private static void Hold(Draft draft, Reservation place, Bench bench, LocalDate from, LocalDate to, double? setpointF)
    {
        if (to > from)
        {
            draft.Holds.Add(new RunningHold(
                place.Trays.First, place.Trays.Count, bench.Code, place.Spaces.First, place.Spaces.Count, from, to, setpointF, false));
        }
    }

    /// <summary>Days on heat that were not planned: the zone keeps its setpoint for them if all that lies there bears it, or the trays bear what
    /// it is set to then; else they have to go.</summary>
    /// <returns>To which day they may lie there, and the setpoint to keep; null for what it is set to anyway.</returns>
    private (LocalDate Until, double? SetpointF) Heated(Draft draft, Reservation place, LocalDate from, LocalDate to)
    {
        var zones = _rows.ZonesUnder(place.BenchId, place.Spaces).ToList();
        if (zones.Count == 0 || SetpointOn(place, LocalDate.Max(_today, place.Days.Start)) is not { } setpoint
            || zones.TrueForAll(zone => zone.Over(from, to).All(setpointC => ZoneLevels.F(setpointC).Equals(setpoint))))
        {
            return (to, null);
        }

        if (zones.TrueForAll(zone => _free.MayHave(zone, from, to, setpoint)))
        {
            return (to, setpoint);
        }

        var borne = zones.TrueForAll(zone => zone.Over(from, to).All(setpointC => draft.Batches.All(row => row.Crop.Accepts(setpointC))));
        return (borne ? to : from, null);
    }

    private void Place(Draft draft, Move move)
    {
        var place = move.Place;
        var setpoint = SetpointOn(place, move.From);
        var parts = _free.Find(new PlaceNeed(move.From, move.To, move.Bench, setpoint), draft.Set, place.Trays.Count);
        var first = place.Trays.First;
        foreach (var (free, trays) in parts)
        {
            draft.Holds.Add(new RunningHold(first, trays, free.Bench.Code, free.Spaces.First, free.Spaces.Count, move.From, move.To, setpoint, false));
            _free.Take(free.Bench, free.Spaces, move.From, move.To, setpoint);
            draft.Words.Add(
                $"{RunningSets.Trays(new SpaceRun(first, trays))} from {Where(move.Bench, place.Spaces)} to {Where(free)}, {(free.Spaces.Count == 1 ? "space" : "spaces")} {free.Spaces}, from {EventWords.Day(move.From)} until {EventWords.Day(move.To)}");
            draft.Moved = true;
            first += trays;
        }

        if (place.Trays.Last - first + 1 is var left and > 0)
        {
            Stuck(draft, move, new SpaceRun(first, left));
        }
    }

    /// <summary>Trays that find no other place stay where they stand, as far as nobody else has it.</summary>
    private void Stuck(Draft draft, Move move, SpaceRun trays)
    {
        var spaces = draft.Set.SpacesFor(trays.Count);
        var on = move.Bench.Kind switch
        {
            BenchKind.Germination => "on heat that suits them",
            BenchKind.Hardening => "for hardening off",
            _ => $"on a {(move.Bench.Band == Band.Cool ? "cool" : "warm")} bench",
        };
        var where = move.Out is null ? "they have none" : $"they stay reserved on bench {move.Bench.Code}, which cannot be used";
        _homeless.Add(string.Create(
            CultureInfo.InvariantCulture,
            $"{draft.Code}: no {(spaces == 1 ? "space" : "spaces")} {on} for {RunningSets.Trays(trays)} ({spaces} missing) from {EventWords.Day(move.From)} until {EventWords.Day(move.To)}; {where}: rent some, or throw trays away"));
        if (move.Out is null)
        {
            return;
        }

        if (move.Whole && trays == move.Place.Trays)
        {
            // All of it stays: so does the reservation.
            draft.Ends.RemoveAll(end => end.Reservation == move.Place.Id.Value);
            return;
        }

        draft.Holds.Add(new RunningHold(
            trays.First, trays.Count, move.Bench.Code, move.Place.Spaces.Last - spaces + 1, spaces, move.From, move.To, null, true));
    }

    /// <summary>What it lies at on heat on a day, °F; null on a bench.</summary>
    private double? SetpointOn(Reservation place, LocalDate day) =>
        _rows.ZonesUnder(place.BenchId, place.Spaces).FirstOrDefault() is { } zone ? ZoneLevels.F(zone.On(day)) : null;

    private string Where(Bench bench, SpaceRun spaces) =>
        _rows.ZonesUnder(bench.Id, spaces).FirstOrDefault() is { } zone ? $"heat zone {zone.Zone.Code}" : $"bench {bench.Code}";

    private static string Where(FreePlace free) => free.Zone is { } zone ? $"heat zone {zone.Code}" : $"bench {free.Bench.Code}";

    private RunningSet Written(Draft draft)
    {
        var slip = draft.Slip == 0 ? null : $"ready {EventWords.Days(Math.Abs(draft.Slip))} {(draft.Slip > 0 ? "later" : "sooner")}";
        var why = draft.Moves.Select(move => move.Out).OfType<string>().Distinct().ToList();
        var words = string.Join("; ", draft.Words.Prepend(slip).OfType<string>());
        return new RunningSet(
            draft.Set.Id.Value, draft.Code, SeasonProblems.Places(_rows.Places[draft.Set.Id]), draft.Slip,
            draft.Batches.ToDictionary(row => row.Batch.Code, row => row.Batch.ReadyOn), draft.Ends, draft.Holds,
            words.Length == 0 ? null : new RunningChange(
                draft.Code, draft.Moved, draft.Slip != 0, $"{draft.Code}: {words}{(why.Count == 0 ? "" : $" ({string.Join("; ", why)})")}"));
    }
}
