namespace Nursery.Planning;

public sealed record FirstFitResult(IReadOnlyList<PlacedBatch> Placed, IReadOnlyList<UnplacedBatch> Unplaced);
