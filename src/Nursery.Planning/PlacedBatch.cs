namespace Nursery.Planning;

public sealed record PlacedBatch(PlanBatch Batch, Held Heat, Held Bench);
