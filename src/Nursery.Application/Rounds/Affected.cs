using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>What must be folded anew after an entry. The batches' rows are locked.</summary>
internal sealed record Affected(IReadOnlyCollection<Batch> Batches, IReadOnlyCollection<Id<TraySet>> TraySets)
{
    public static Affected Nothing { get; } = new([], []);

    /// <summary>Locked batches of which only the tasks may change.</summary>
    public IReadOnlyCollection<Batch> TasksOnly { get; init; } = [];

    /// <summary>A bench or house whose task was reported on.</summary>
    public TaskSubject? Place { get; init; }
}
