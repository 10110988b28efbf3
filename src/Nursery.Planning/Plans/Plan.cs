namespace Nursery.Planning.Plans;

/// <summary>Where and when every batch stands.</summary>
/// <param name="Batches">Those with a place, in the problem's order.</param>
/// <param name="Zones">Every zone's setpoints over the season.</param>
/// <param name="Unplaced">Those without, each with the reason.</param>
/// <param name="Score">What it costs, by name.</param>
/// <param name="Remarks">What was wrong with the problem and left out, a sentence each; null is nothing.</param>
public sealed record Plan(
    IReadOnlyList<PlannedBatch> Batches, IReadOnlyList<ZonePath> Zones, IReadOnlyList<Unplaced> Unplaced, Score Score,
    IReadOnlyList<string>? Remarks = null);

/// <summary>A batch with a place. It is on heat from <paramref name="SowOn"/> to <paramref name="MoveOffOn"/>, on benches until
/// <paramref name="HardenOn"/>, in hardening until <paramref name="ReadyOn"/>; every second day is the first no longer there.</summary>
/// <param name="SetpointF">The setpoint it germinates at, °F.</param>
/// <param name="SpaceOn">Day it is set apart on its bench.</param>
/// <param name="Heat">Runs of spaces in zones.</param>
/// <param name="Benches">Runs of spaces on benches.</param>
public sealed record PlannedBatch(
    string Id, DateOnly SowOn, DateOnly MoveOffOn, DateOnly SpaceOn, DateOnly HardenOn, DateOnly ReadyOn, double SetpointF,
    BenchUse Band, IReadOnlyList<HeatStay> Heat, IReadOnlyList<BenchStay> Benches);

/// <param name="FirstSpace">Within the zone, from 1.</param>
public sealed record HeatStay(string Zone, int FirstSpace, int Spaces);

/// <summary>A run of spaces on a bench, and the run it becomes when the trays are set apart, which holds the first one.</summary>
/// <param name="FirstSpace">From 1.</param>
public sealed record BenchStay(string Bench, int FirstSpace, int Spaces, int FirstSpaceAfter, int SpacesAfter);

public sealed record ZonePath(string Zone, IReadOnlyList<SetpointSpan> Setpoints);

/// <param name="To">First day it no longer holds.</param>
/// <param name="SetpointF">°F; null is off.</param>
public sealed record SetpointSpan(DateOnly From, DateOnly To, double? SetpointF = null);

/// <param name="Trays">Trays without a place.</param>
/// <param name="Why">A sentence.</param>
/// <param name="Reason">The same for programs.</param>
public sealed record Unplaced(string Id, int Trays, WhyNot Reason, string Why);

public enum WhyNot
{
    /// <summary>The batch itself cannot be planned: something about it is wrong.</summary>
    SetAside,

    /// <summary>No setpoint a zone may have suits its seed.</summary>
    NoZoneSuits,

    /// <summary>No bench of a band it may stand on.</summary>
    NoBenchOfBand,

    /// <summary>It would have to be sown before it can be.</summary>
    WindowPast,

    /// <summary>The plan found no space for it; there may be some.</summary>
    NoSpaceFound,
}

/// <summary>What a plan costs, in cents.</summary>
/// <param name="Cost">All but the splits by position and the changes.</param>
/// <param name="PositionedCost">With every run of spaces beyond the first counted as a split.</param>
/// <param name="ByConstraint">Every cost by its name; those that are zero too.</param>
public sealed record Score(long Cost, long PositionedCost, IReadOnlyDictionary<string, long> ByConstraint)
{
    public static Score None { get; } = new(0, 0, new Dictionary<string, long>());
}
