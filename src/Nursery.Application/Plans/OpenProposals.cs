using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Plans;

internal static class OpenProposals
{
    /// <summary>The run, locked so that nobody accepts or drops it at the same moment.</summary>
    /// <exception cref="NotFound">No plan run of that id on the site.</exception>
    /// <exception cref="NoOpenProposal">It is not ready, was accepted or dropped, or is of another problem than the own season.</exception>
    public static async Task<(BackgroundRun Run, KeptPlan Kept)> LockAsync(
        NurseryDbContext database, Guid id, Actor actor, CancellationToken cancellation)
    {
        var run = (await database.BackgroundRuns.FromSql($"SELECT * FROM background_runs WHERE id = {id} FOR UPDATE").ToListAsync(cancellation))
            .SingleOrDefault(row => row.SiteId == actor.SiteId && row.Kind == RunKind.Plan)
            ?? throw new NotFound("plan", "id", id.ToString());
        var kept = KeptPlan.Of(run);
        var why = run.IsLive ? "it is still computed"
            : kept.Plan is null ? "no plan came of it"
            : kept.Request.Aim == PlanAim.Try ? "it was tried out on a copy of the season"
            : kept.Dropped ? "it was dropped"
            : kept.Accepted is not null ? "it was accepted already"
            : kept.Request.Problem is not null ? "it is of a problem that was sent, not of this site's season" : null;
        return why is null ? (run, kept) : throw new NoOpenProposal(why);
    }
}
