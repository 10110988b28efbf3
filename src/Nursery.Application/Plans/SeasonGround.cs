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
public sealed record SeasonGround(Problem Problem, Plan Today, IReadOnlyList<BatchGround> Batches, IReadOnlyList<string> Left);
