using Nursery.Planning.Plans;

namespace Nursery.Planning.Changes;

/// <summary>A batch that was sown before the day of the change, as it goes on.</summary>
/// <param name="Placed">Its days and its places from the day of the change on.</param>
/// <param name="Why">Why it stands elsewhere or longer than planned; null when it stays as it was.</param>
public sealed record RunningBatch(PlannedBatch Placed, string? Why = null);

/// <summary>Running trays for which there is no space any more.</summary>
/// <param name="Where">Heat, bench or hardening.</param>
/// <param name="Spaces">How many of its spaces are missing.</param>
public sealed record HomelessTrays(string Batch, string Where, DateOnly From, DateOnly To, int Spaces)
{
    public string Sentence => FormattableString.Invariant(
        $"{Batch}: I found no space for {Spaces} tray spaces ({Where}) from {From:yyyy-MM-dd} to {To:yyyy-MM-dd}; rent some, or throw trays away.");
}

/// <summary>The rest of a season after a change.</summary>
/// <param name="Planned">What is not sown yet, around what is.</param>
/// <param name="Running">What is sown.</param>
/// <param name="Homeless">Running trays without a space.</param>
/// <param name="Difference">To the plan of today, among what is not sown yet.</param>
/// <param name="NotStarted">Batches that were planned and are not sown yet: what changes are counted against.</param>
public sealed record Replanned(
    Planned Planned, IReadOnlyList<RunningBatch> Running, IReadOnlyList<HomelessTrays> Homeless, PlanDifference Difference, int NotStarted);
