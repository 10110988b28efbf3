using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

/// <summary>Does random things to a plan, and to the oracle beside it.</summary>
internal sealed class RandomSeason(TestNursery nursery, Random random)
{
    private const int Batches = 8;
    private readonly List<(PlannedBatch Batch, Id<TraySet> Set)> _batches = [];

    // In the order they were made: ids are random, and a seed must give the same season every time.
    private readonly List<Id<TraySet>> _sets = [];
    private readonly HashSet<(Id<TraySet> Set, int Tray)> _gone = [];
    private readonly Stack<(Guid Change, PlacedTrays Before)> _changes = new();

    public PlacedTrays Oracle { get; private set; } = new();

    /// <summary>Growing benches only: temperatures have tests of their own.</summary>
    public IReadOnlyList<Bench> Benches { get; } = [nursery.At.Warm, nursery.At.Cool, nursery.At.Hardening];

    /// <summary>Days before this were past when the last step was done.</summary>
    public LocalDate PastBefore { get; private set; }

    public Dictionary<string, int> Done { get; } = new() { ["reserve"] = 0, ["move"] = 0, ["swap"] = 0, ["undo"] = 0, ["give up"] = 0, ["discard"] = 0, ["refusal"] = 0 };

    public async Task PlanAsync()
    {
        for (var number = 0; number < Batches; number++)
        {
            var batch = await nursery.PlanAsync(nursery.Pepper, trays: Size());
            await using var database = await nursery.DatabaseAsync();
            var set = await database.TraySets.SingleAsync(row => row.Code == batch.TraySetCode && row.SiteId == nursery.At.Site.Id);
            Add(batch, set.Id);
        }
    }

    public async Task<string> StepAsync()
    {
        PastBefore = nursery.Today;
        var what = random.Next(21) switch
        {
            < 6 => "reserve",
            < 11 => "move",
            < 15 => "swap",
            < 18 => "undo",
            < 19 => "day",
            < 20 => "discard",
            _ => "give up",
        };
        await (what switch
        {
            "reserve" => ReserveAsync(),
            "move" => MoveAsync(),
            "swap" => SwapAsync(),
            "undo" => UndoAsync(),
            "give up" => GiveUpAsync(),
            "discard" => DiscardAsync(),
            _ => DayAsync(),
        });
        return what;
    }

    private async Task ReserveAsync()
    {
        var (batch, set) = Any(_batches);
        var bench = Any(Benches);
        var from = nursery.Today.PlusDays(random.Next(6));
        var to = from.PlusDays(random.Next(1, 15));
        int? first = random.Next(2) == 0 ? null : random.Next(1, bench.Capacity + 1);
        try
        {
            var reserved = await nursery.ReserveAsync(batch, bench.Code, first, from, to);
            var rows = await RowsAsync();
            Oracle.Put(bench.Id, reserved.FirstSpace, set, rows.Single(row => row.Id.Value == reserved.Id).Trays, from, to);
            Count("reserve");
        }
        catch (Refusal refusal)
        {
            Justify(refusal, Oracle, bench, first, batch.Trays, from, to);
        }
    }

    private async Task MoveAsync()
    {
        if (Movable(await RowsAsync()) is not { } row)
        {
            return;
        }

        var count = random.Next(2) == 0 ? row.Trays.Count : random.Next(1, row.Trays.Count + 1);
        var trays = new SpaceRun(row.Trays.First + random.Next(row.Trays.Count - count + 1), count);
        var on = LocalDate.Max(nursery.Today, row.Days.Start).PlusDays(random.Next(3));
        await MoveAsync(row, trays, Any(Benches), random.Next(2) == 0 ? null : random.Next(1, 41), LocalDate.Min(on, row.Days.End));
    }

    private async Task<MovedReservation?> MoveAsync(Reservation row, SpaceRun trays, Bench to, int? first, LocalDate on)
    {
        var before = Oracle.Copy();
        var lifted = Oracle.Copy();
        lifted.Take(row.BenchId, new SpaceRun(row.Spaces.First + trays.First - row.Trays.First, trays.Count), on, row.To);
        try
        {
            var request = new MoveTraysRequest(row.Id.Value, to.Code, first, trays, on);
            var tried = await nursery.Get<MoveTrays>().TryAsync(request, nursery.HeadGrower);
            var moved = await nursery.Get<MoveTrays>().HandleAsync(request, nursery.HeadGrower);
            Assert.Equal(tried, moved with { ChangeId = null });
            lifted.Put(to.Id, moved.FirstSpace, row.TraySetId, trays, on, row.To);
            Oracle = lifted;
            _changes.Push((moved.ChangeId!.Value, before));
            Count("move");
            return moved;
        }
        catch (Refusal refusal)
        {
            Justify(refusal, lifted, to, first, trays.Count, on, row.To);
            return null;
        }
    }

    /// <summary>Two groups change places: one by a third place, as people do it on a screen.</summary>
    private async Task SwapAsync()
    {
        var rows = await RowsAsync();
        if (Movable(rows) is not { } one || Movable([.. rows.Where(row => row.Id != one.Id && row.Spaces.Count == one.Spaces.Count)]) is not { } other)
        {
            return;
        }

        var on = LocalDate.Max(LocalDate.Max(one.Days.Start, other.Days.Start), nursery.Today);
        var between = Any(Benches);
        if (on > one.Days.End || on > other.Days.End || await MoveAsync(one, one.Trays, between, null, on) is not { } stop)
        {
            return;
        }

        var parked = (await RowsAsync()).Single(
            row => row.BenchId == between.Id && row.Spaces.First == stop.FirstSpace && row.Days.Start == on);
        if (await MoveAsync(other, other.Trays, Bench(one.BenchId), one.Spaces.First, on) is not null
            && await MoveAsync(parked, parked.Trays, Bench(other.BenchId), other.Spaces.First, on) is not null)
        {
            Count("swap");
        }
    }

    private async Task UndoAsync()
    {
        if (!_changes.TryPop(out var change))
        {
            return;
        }

        try
        {
            await nursery.Get<UndoReplan>().HandleAsync(change.Change, nursery.HeadGrower);
            Oracle = change.Before;
            Count("undo");
        }
        catch (GroundHasMoved)
        {
            Assert.Fail("Changes are taken back last first, and forgotten when something else happens");
        }
    }

    private async Task GiveUpAsync()
    {
        var (batch, set) = Any(_batches);
        _batches.RemoveAll(row => row.Batch.Id == batch.Id);
        await nursery.Get<DiscardBatch>().HandleAsync(
            new DiscardBatchRequest(nursery.NewEntryId(), batch.Id, "not wanted any more"), nursery.HeadGrower);
        Oracle.TakeAll(set, nursery.Today);
        var next = await nursery.PlanAsync(nursery.Pepper, trays: Size());
        await using var database = await nursery.DatabaseAsync();
        var nextSet = await database.TraySets.SingleAsync(row => row.Code == next.TraySetCode && row.SiteId == nursery.At.Site.Id);
        Add(next, nextSet.Id);
        Count("give up");
    }

    /// <summary>One tray of a batch, which is sown first.</summary>
    private async Task DiscardAsync()
    {
        var (batch, set) = Any(_batches);
        if (batch.Trays == 1)
        {
            return;
        }

        if ((await nursery.StateAsync(batch.Id)).SownOn is null)
        {
            await nursery.SowAsync(batch);
        }

        var tray = new SpaceRun(random.Next(1, batch.Trays + 1), 1);
        try
        {
            await nursery.Get<DiscardTrays>().HandleAsync(
                new DiscardTraysRequest(nursery.NewEntryId(), batch.Id, tray, "damping off"), nursery.HeadGrower);
            Oracle.TakeTray(set, tray.First, nursery.Today);
            Count("discard");
        }
        catch (InvalidFields)
        {
            Assert.True(_gone.Contains((set, tray.First)) || _gone.Count(gone => gone.Set == set) == batch.Trays - 1, "a tray that is there can be discarded");
            return;
        }

        _gone.Add((set, tray.First));
    }

    private Task DayAsync()
    {
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        _changes.Clear();
        return Task.CompletedTask;
    }

    /// <summary>A refusal must be true: nothing is refused that would fit.</summary>
    private void Justify(Refusal refusal, PlacedTrays others, Bench bench, int? first, int spaces, LocalDate from, LocalDate to)
    {
        var beyond = first is { } asked && asked + spaces - 1 > bench.Capacity;
        switch (refusal)
        {
            case InvalidFields { Errors: [{ Field: "firstSpace" }] }:
                Assert.True(beyond, refusal.Message);
                break;
            case SpaceTaken:
                Assert.False(beyond, refusal.Message);
                Assert.False(others.IsFree(bench.Id, new SpaceRun(first!.Value, spaces), from, to), refusal.Message);
                break;
            case BenchIsFull:
                Assert.Null(first);
                Assert.False(others.HasRoom(bench, spaces, from, to), refusal.Message);
                break;
            default:
                Assert.Fail($"{refusal.Code}: {refusal.Message}");
                break;
        }

        Count("refusal");
    }

    private void Count(string kind)
    {
        Done[kind]++;
        if (kind is "reserve" or "give up" or "discard")
        {
            _changes.Clear();
        }
    }

    private Reservation? Movable(IReadOnlyList<Reservation> rows)
    {
        var open = rows.Where(row => row.Days.End >= nursery.Today).ToList();
        return open.Count == 0 ? null : Any(open);
    }

    private async Task<List<Reservation>> RowsAsync()
    {
        await using var database = await nursery.DatabaseAsync();
        return [.. (await database.Reservations.AsNoTracking().Where(row => row.SiteId == nursery.At.Site.Id).ToListAsync())
            .OrderBy(row => row.Days.Start).ThenBy(row => _sets.IndexOf(row.TraySetId)).ThenBy(row => row.Trays.First)
            .ThenBy(row => row.Spaces.First).ThenBy(row => row.To)];
    }

    private void Add(PlannedBatch batch, Id<TraySet> set)
    {
        _batches.Add((batch, set));
        _sets.Add(set);
    }

    /// <summary>Few sizes, so that groups can change places.</summary>
    private int Size() => Any([1, 4, 4, 7, 12]);

    private Bench Bench(Id<Bench> id) => Benches.Single(bench => bench.Id == id);

    private T Any<T>(IReadOnlyList<T> of) => of[random.Next(of.Count)];
}
