namespace Nursery.Planning;

/// <summary>How long to search. With steps the same problem and seed give the same plan; with a time they need not.</summary>
/// <param name="Steps">Steps of the search, 0 or more; null when the time decides.</param>
/// <param name="Time">Null when the steps decide; of two the first that is reached.</param>
/// <param name="Seed">Of the random source.</param>
public sealed record Effort(long? Steps = null, TimeSpan? Time = null, ulong Seed = 1)
{
    public static Effort Seconds(double seconds, ulong seed = 1) => new(Time: TimeSpan.FromSeconds(seconds), Seed: seed);
}

/// <summary>How far a search is.</summary>
/// <param name="BestCost">Of the best plan so far, with splits by position and changes, cents.</param>
/// <param name="Done">0 to 1.</param>
public sealed record PlanProgress(long BestCost, double Done);
