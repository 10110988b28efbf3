using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>What must be folded anew after an entry. The batches' rows are locked.</summary>
internal sealed record Affected(IReadOnlyCollection<Batch> Batches, IReadOnlyCollection<Id<TraySet>> TraySets)
{
    public static Affected Nothing { get; } = new([], []);
}
