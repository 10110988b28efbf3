using Nursery.Application.Papers;
using Nursery.Application.Plans;

namespace Nursery.Web.Components.Pages.Plans;

/// <summary>A plan that can be drawn on the time line.</summary>
/// <param name="Label">As it is chosen and spoken of: "the proposal".</param>
/// <param name="Timings">How the days of its batches come to be, by code; empty when they are as reserved.</param>
/// <param name="Paper">What prints it; null when nothing does.</param>
public sealed record PlanView(
    string Label, DateOnly Start, int Days, IReadOnlyList<PlanLine> Lines, IReadOnlyDictionary<string, string> Names,
    IReadOnlyDictionary<string, Guid> Ids, IReadOnlyDictionary<string, BatchTiming> Timings, PlanToPrint? Paper)
{
    private static readonly Dictionary<string, BatchTiming> None = [];

    public static PlanView Of(PlanInForce plan) => new("the plan in force", plan.Start, plan.Days, plan.Lines, plan.Names, plan.Ids, None, PlanToPrint.InForce);

    /// <summary>What was computed.</summary>
    public static PlanView Then(Proposal proposal) => new(
        PlanWords.Name(proposal.Run), proposal.Start, proposal.Days, proposal.Then, proposal.Names, proposal.Ids, proposal.Timings,
        proposal.Run.Proposal == ProposalState.Open ? PlanToPrint.Proposal : null);

    /// <summary>What was in force when it was computed.</summary>
    public static PlanView Today(Proposal proposal) => new(
        "today's plan", proposal.Start, proposal.Days, proposal.Today, proposal.Names, proposal.Ids, None, PlanToPrint.InForce);
}
