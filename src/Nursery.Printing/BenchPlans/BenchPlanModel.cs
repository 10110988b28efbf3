namespace Nursery.Printing.BenchPlans;

/// <summary>Houses seen from above, each on one page.</summary>
public sealed record BenchPlanModel(Imprint Imprint, Paper Paper, IReadOnlyList<PlanHouse> Houses);
