using NodaTime;
using Nursery.Application.Plans.Changes;
using Nursery.Application.Runs;
using Nursery.Domain.Runs;
using Nursery.Planning.Plans;

namespace Nursery.Application.Plans;

/// <summary>What a plan is for.</summary>
public enum PlanAim
{
    /// <summary>Everything that is not sown is planned anew.</summary>
    Whole,

    /// <summary>Something happened: today's plan is kept as far as it can be.</summary>
    Keep,

    /// <summary>Something is tried out on a copy of the season; it can never be accepted.</summary>
    Try,
}

/// <summary>A plan to compute.</summary>
/// <param name="Seconds">Above 0 to 3,600; null when the iterations decide.</param>
/// <param name="Iterations">0 to 10^9; the same problem, seed and iterations give the same plan.</param>
/// <param name="Seed">Of the random source.</param>
/// <param name="Problem">A problem as docs/planning.md has it; null is the site's own season.</param>
/// <param name="Aim">Of the own season; a problem that is sent is always planned whole.</param>
public sealed record PlanRequest(
    double? Seconds = null, long? Iterations = null, long Seed = 1, string? Problem = null, PlanAim Aim = PlanAim.Whole)
{
    /// <summary>What happened or is tried out, up to 50; empty for a whole plan, one or more for a trial.</summary>
    public IReadOnlyList<PlanEvent> Changes { get; init; } = [];
}

/// <summary>Trays that hold places and are not the plan's to time anew, with what becomes of them.</summary>
/// <param name="Code">Of the batch; of the tray set when several batches are in it.</param>
/// <param name="Moves">They stand elsewhere than today's plan has it.</param>
/// <param name="Longer">They stay another number of days.</param>
/// <param name="Sentence">What changes, and why.</param>
public sealed record RunningChange(string Code, bool Moves, bool Longer, string Sentence);

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

    /// <summary>It was tried out and is nothing to accept.</summary>
    TriedOut,
}

/// <summary>A plan that is computed in the background: how far it is, and what came of it.</summary>
/// <param name="Progress">0 to 1.</param>
/// <param name="BestCost">Cents of the best plan so far.</param>
/// <param name="SecondsLeft">About; null when iterations decide, and when it is over.</param>
/// <param name="Score">What the plan costs by name, cents; null before there is one.</param>
/// <param name="OwnSeason">Of the site's season: only such a plan can be accepted.</param>
/// <param name="AcceptedBatches">Codes of the batches that were accepted.</param>
/// <param name="Remarks">What was left out, a sentence each.</param>
/// <param name="Aim">What it is for.</param>
/// <param name="ChangesInWords">What happened or is tried out, a sentence each.</param>
/// <param name="Running">Trays that are sown, or share trays, and go elsewhere or stay longer.</param>
/// <param name="Homeless">Such trays for which there is no space, a sentence each.</param>
/// <param name="Changed">Of a plan that keeps today's or tries something: batches not sown yet whose sow day, zone or bench differs from it or that lose their place; else null.</param>
/// <param name="NotStarted">Of how many that have a place today; null with <paramref name="Changed"/>.</param>
/// <param name="Bound">Cents no plan of its problem can cost less than; null when none was found in time.</param>
public sealed record PlanRun(
    Guid Id, RunState State, double Progress, long? BestCost, double? SecondsLeft, IReadOnlyDictionary<string, long>? Score,
    IReadOnlyList<NotInPlan> Unplaced, string? Message, string StartedBy, Instant StartedAt, Instant? EndedAt, bool StopRequested,
    bool OwnSeason, ProposalState Proposal, IReadOnlyList<string> AcceptedBatches, IReadOnlyList<string> Remarks, Plan? Plan,
    PlanAim Aim, IReadOnlyList<string> ChangesInWords, IReadOnlyList<RunningChange> Running, IReadOnlyList<string> Homeless,
    int? Changed, int? NotStarted, long? Bound)
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
            StateOf(run, kept, plan), kept.Accepted ?? [], [.. kept.Left, .. plan?.Remarks ?? []], plan,
            kept.Request.Aim, [.. kept.Request.Changes.Select(EventWords.Of)], kept.Replan?.Running ?? [], kept.Replan?.Homeless ?? [],
            kept.Replan?.Changed, kept.Replan?.NotStarted, kept.Bound);
    }

    private static ProposalState StateOf(BackgroundRun run, KeptPlan kept, Plan? plan) => plan is null || run.IsLive ? ProposalState.None
        : kept.Request.Aim == PlanAim.Try ? ProposalState.TriedOut
        : kept.Dropped ? ProposalState.Dropped
        : kept.Accepted is null ? ProposalState.Open : ProposalState.Accepted;
}

/// <summary>What the database keeps of a plan run; problem and plans as docs/planning.md has them.</summary>
/// <param name="Problem">What was planned; null before the run looked.</param>
/// <param name="Today">The plan that was in force then.</param>
/// <param name="WaysOut">What helps when trays were left out.</param>
/// <param name="Accepted">Codes of accepted batches; null while nobody accepted it.</param>
/// <param name="Replan">What a plan that keeps today's, or a trial, says of running trays; null for a whole plan.</param>
/// <param name="Bound">Cents no plan of the problem can cost less than.</param>
internal sealed record KeptPlan(
    PlanRequest Request, long? BestCost, string? Problem, string? Today, string? Plan, IReadOnlyList<BatchGround> Batches,
    IReadOnlyList<string> Left, WaysOut? WaysOut, IReadOnlyList<string>? Accepted, bool Dropped, KeptReplan? Replan = null,
    long? Bound = null)
{
    public static KeptPlan For(PlanRequest request) => new(request, null, null, null, null, [], [], null, null, false);

    public static KeptPlan Of(BackgroundRun run) => RunProgress.ResultOf<KeptPlan>(run) ?? For(new PlanRequest());
}

/// <summary>Why trays were left out, and what helps; each way was planned before it is said.</summary>
public sealed record WaysOut(string Why, IReadOnlyList<string> Ways);

/// <summary>What something that happened does to the season.</summary>
/// <param name="Running">Trays that go elsewhere or stay longer.</param>
/// <param name="Homeless">Those without a space, a sentence each.</param>
/// <param name="Changed">Batches not sown yet that change.</param>
/// <param name="NotStarted">Of how many.</param>
/// <param name="Season">The problem without the change.</param>
/// <param name="Sets">What is to be written of running trays when it is accepted; empty for a trial.</param>
internal sealed record KeptReplan(
    IReadOnlyList<RunningChange> Running, IReadOnlyList<string> Homeless, int? Changed, int? NotStarted, string Season,
    IReadOnlyList<RunningSet> Sets);
