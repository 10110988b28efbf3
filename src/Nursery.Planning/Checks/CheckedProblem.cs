using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Checks;

/// <summary>A problem with all that is wrong taken out of it.</summary>
/// <param name="Usable">What can be planned.</param>
/// <param name="Remarks">What was wrong.</param>
/// <param name="SetAside">Batches that cannot be planned at all.</param>
public sealed record CheckedProblem(Problem Usable, IReadOnlyList<Remark> Remarks, IReadOnlyList<Unplaced> SetAside);
