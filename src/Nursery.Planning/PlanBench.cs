namespace Nursery.Planning;

/// <summary>A run of a bench's spaces as the planner sees it: a heat zone, or a whole unheated bench.</summary>
/// <param name="Id">The bench.</param>
/// <param name="Use">Heat for a zone of a germination bench.</param>
/// <param name="FirstSpace">First space, from 1.</param>
/// <param name="Spaces">Spaces in the run, 1 or more.</param>
/// <param name="SetpointC">°C; null where there is no heat.</param>
public sealed record PlanBench(Guid Id, BenchUse Use, int FirstSpace, int Spaces, decimal? SetpointC = null);
