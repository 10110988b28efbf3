using Nursery.Domain.Tasks;

namespace Nursery.Domain.Tests.Tasks.Histories;

/// <summary>What people do in a random history; told late or not, and perhaps taken back.</summary>
internal enum Deed
{
    Sow,
    Do,
    NotUp,
    NotReady,
    CountFew,
    CountMany,
    MoveToBench,
    MoveToHarden,
    Discard,
    Undo,
    ChangePlan,
    ChangeZone,
    SeeSurface,
}

/// <param name="Deed">What is done.</param>
/// <param name="HoursLater">Hours since the step before.</param>
/// <param name="HoursLate">How long before being told it happened.</param>
/// <param name="Kind">The task that is done.</param>
/// <param name="Number">A choice: which entry is taken back, which zone, how many days the plan moves, dry or wet.</param>
internal sealed record Happening(Deed Deed, int HoursLater, int HoursLate, TaskKind Kind, int Number);
