using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Reservations;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>What a batch was when its plan was made: a plan is accepted only for what it still is.</summary>
/// <param name="Code">Of the batch.</param>
/// <param name="Version">Of the batch.</param>
/// <param name="Trays">Of its tray set.</param>
/// <param name="Places">Its reservations, in words.</param>
public sealed record BatchGround(Guid BatchId, Guid TraySetId, string Code, string Variety, int Version, int Trays, string Places);

/// <summary>The site's own season, as a problem to plan and with the plan in force.</summary>
/// <param name="Today">The plan in force for the batches of the problem, scored as a proposal is.</param>
/// <param name="Batches">What they are.</param>
/// <param name="Left">What is not planned, and why, a sentence each.</param>
/// <param name="Added">Batches that are tried out on top of those of the problem.</param>
public sealed record SeasonGround(
    Problem Problem, Plan Today, IReadOnlyList<BatchGround> Batches, IReadOnlyList<string> Left, IReadOnlyList<Batch> Added);

/// <summary>A batch that is tried out.</summary>
/// <param name="Wanted">Day its order would want plants.</param>
internal sealed record AddedBatch(string Code, Domain.Crops.Crop Crop, string Variety, int Trays, LocalDate Wanted);

/// <summary>What a problem is made for.</summary>
/// <param name="Keep">Today's plan is kept: what it has is allowed, however early or late.</param>
/// <param name="SetpointsF">By reservation: what trays lie at on heat where that is not what the zone is set to so far, °F.</param>
/// <param name="LevelsF">Setpoints that are tried out, °F.</param>
/// <param name="Added">Batches that are tried out.</param>
internal sealed record SeasonAsk(
    bool Keep, IReadOnlyDictionary<Id<Reservation>, double> SetpointsF, IReadOnlyCollection<double> LevelsF, IReadOnlyList<AddedBatch> Added)
{
    public static SeasonAsk Whole { get; } = new(false, new Dictionary<Id<Reservation>, double>(), [], []);
}
