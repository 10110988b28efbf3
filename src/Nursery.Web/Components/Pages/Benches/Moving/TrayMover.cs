using NodaTime;
using Nursery.Application.Reservations;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Benches.Moving;

/// <summary>What one person moves on the map: the place under the pointer with its answer, and the moves that can be taken back.</summary>
public sealed class TrayMover(MoveTrays moveTrays, UndoReplan undoReplan)
{
    private readonly Stack<(Guid Id, string What)> _changes = new();
    private Actor? _actor;
    private Units _units;
    private LocalDate _on;

    public DropTarget? Target { get; private set; }

    /// <summary>Null before the first answer.</summary>
    public MoveAnswer? Answer { get; private set; }

    /// <summary>What was done or refused last.</summary>
    public string? Said { get; private set; }

    /// <summary>What Undo would take back; null when there is nothing.</summary>
    public string? Last => _changes.TryPeek(out var change) ? change.What : null;

    /// <summary>Who moves, in whose units, from which day on.</summary>
    public void Begin(Actor actor, Units units, LocalDate on) => (_actor, _units, _on) = (actor, units, on);

    /// <summary>Trays are over a place: would they fit?</summary>
    public async Task OverAsync(DropTarget? target)
    {
        if (target is null)
        {
            (Target, Answer) = (null, null);
        }
        else if (target != Target)
        {
            Answer = await MoveAnswer.OfAsync(() => moveTrays.TryAsync(RequestOf(target), _actor!), _units);
            Target = target;
        }
    }

    /// <summary>Trays are let go.</summary>
    /// <returns>Whether the plan has changed.</returns>
    public async Task<bool> DropAsync(bool dropped)
    {
        var (target, answer) = (Target, Answer);
        (Target, Answer) = (null, null);
        if (!dropped || target is null)
        {
            return false;
        }

        MovedReservation? moved = null;
        if (answer is { Fits: true })
        {
            // Asked again while the bench is locked: someone may have been faster.
            answer = await MoveAnswer.OfAsync(async () => moved = await moveTrays.HandleAsync(RequestOf(target), _actor!), _units);
        }

        if (moved is null)
        {
            Said = $"Not moved. {answer?.Words}";
            return false;
        }

        Remember(moved);
        return true;
    }

    public void Remember(MovedReservation moved)
    {
        Said = $"{moved.TraySetCode} to {MoveAnswer.Place(moved)}, from {MapText.Day(moved.From)}.";
        _changes.Push((moved.ChangeId!.Value, Said));
    }

    /// <returns>Whether the plan has changed.</returns>
    public async Task<bool> UndoAsync()
    {
        if (!_changes.TryPop(out var change))
        {
            return false;
        }

        try
        {
            await undoReplan.HandleAsync(change.Id, _actor!);
            Said = $"Taken back: {change.What}";
            return true;
        }
        catch (Refusal refusal)
        {
            Said = RefusalWords.Of(refusal, _units);
            return false;
        }
    }

    private MoveTraysRequest RequestOf(DropTarget target) =>
        new(target.Trays.ReservationId!.Value, target.BenchCode, target.FirstSpace, On: _on);
}
