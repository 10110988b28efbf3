using NodaTime;
using Nursery.Application.Runs;
using Nursery.Domain.Runs;
using Nursery.Planning.Plans;

namespace Nursery.Application.Plans;

/// <summary>A plan to compute.</summary>
/// <param name="Seconds">Above 0 to 3,600; null when the iterations decide.</param>
/// <param name="Iterations">0 to 10^9; the same problem, seed and iterations give the same plan.</param>
/// <param name="Seed">Of the random source.</param>
/// <param name="Problem">A problem as docs/planning.md has it; null is the site's own season.</param>
public sealed record PlanRequest(double? Seconds = null, long? Iterations = null, long Seed = 1, string? Problem = null);

/// <summary>A batch the plan has no place for.</summary>
public sealed record NotInPlan(string Batch, int Trays, string Why);

/// <summary>What became of a proposal.</summary>
public enum ProposalState
{
    /// <summary>There is no plan (yet).</summary>
    None,
    Open,

    /// <summary>It is the plan in force, all of it or the batches that were chosen.</summary>
    Accepted,
    Dropped,
}

/// <summary>A plan that is computed in the background: how far it is, and what came of it.</summary>
/// <param name="Progress">0 to 1.</param>
/// <param name="BestCost">Cents of the best plan so far.</param>
/// <param name="SecondsLeft">About; null when iterations decide, and when it is over.</param>
/// <param name="Score">What the plan costs by name, cents; null before there is one.</param>
/// <param name="OwnSeason">Of the site's season: only such a plan can be accepted.</param>
/// <param name="AcceptedBatches">Codes of the batches that were accepted.</param>
/// <param name="Remarks">What was left out, a sentence each.</param>
public sealed record PlanRun(
    Guid Id, RunState State, double Progress, long? BestCost, double? SecondsLeft, IReadOnlyDictionary<string, long>? Score,
    IReadOnlyList<NotInPlan> Unplaced, string? Message, string StartedBy, Instant StartedAt, Instant? EndedAt, bool StopRequested,
    bool OwnSeason, ProposalState Proposal, IReadOnlyList<string> AcceptedBatches, IReadOnlyList<string> Remarks, Plan? Plan)
{
    /// <summary>Of <see cref="BackgroundRun.Total"/>: a run counts in these.</summary>
    internal const int Steps = 1000;

    public bool IsLive => State is RunState.Queued or RunState.Running;

    internal static PlanRun From(BackgroundRun run) => From(run, KeptPlan.Of(run));

    internal static PlanRun From(BackgroundRun run, KeptPlan kept)
    {
        var plan = kept.Plan is null ? null : Planning.PlanningJson.ReadPlan(kept.Plan);
        var progress = run.Total == 0 ? 0 : Math.Clamp((double)run.Done / run.Total, 0, 1);
        return new PlanRun(
            run.Id.Value, run.State, progress, plan?.Score.PositionedCost ?? kept.BestCost,
            run.IsLive && kept.Request.Seconds is { } seconds ? Math.Round(seconds * (1 - progress), 1) : null,
            plan?.Score.ByConstraint,
            [.. (plan?.Unplaced ?? []).Select(batch => new NotInPlan(batch.Id, batch.Trays, batch.Why))],
            run.Message, run.StartedBy, run.StartedAt, run.EndedAt, run.StopRequested, kept.Request.Problem is null,
            plan is null || run.IsLive ? ProposalState.None : kept.Dropped ? ProposalState.Dropped : kept.Accepted is null ? ProposalState.Open : ProposalState.Accepted,
            kept.Accepted ?? [], [.. kept.Left, .. plan?.Remarks ?? []], plan);
    }
}

/// <summary>What the database keeps of a plan run; problem and plans as docs/planning.md has them.</summary>
/// <param name="Problem">What was planned; null before the run looked.</param>
/// <param name="Today">The plan that was in force then.</param>
/// <param name="WaysOut">What helps when trays were left out.</param>
/// <param name="Accepted">Codes of accepted batches; null while nobody accepted it.</param>
internal sealed record KeptPlan(
    PlanRequest Request, long? BestCost, string? Problem, string? Today, string? Plan, IReadOnlyList<BatchGround> Batches,
    IReadOnlyList<string> Left, WaysOut? WaysOut, IReadOnlyList<string>? Accepted, bool Dropped)
{
    public static KeptPlan For(PlanRequest request) => new(request, null, null, null, null, [], [], null, null, false);

    public static KeptPlan Of(BackgroundRun run) => RunProgress.ResultOf<KeptPlan>(run) ?? For(new PlanRequest());
}

/// <summary>Why trays were left out, and what helps; each way was planned before it is said.</summary>
public sealed record WaysOut(string Why, IReadOnlyList<string> Ways);
