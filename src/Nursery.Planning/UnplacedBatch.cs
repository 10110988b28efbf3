namespace Nursery.Planning;

public sealed record UnplacedBatch(PlanBatch Batch, WhyUnplaced Why);
