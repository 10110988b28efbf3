using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Plans;

/// <summary>Puts a proposal away. The season was never touched by it, so the ledger says nothing.</summary>
public sealed class DropPlan(IDbContextFactory<NurseryDbContext> databases)
{
    /// <exception cref="NotFound">No such plan.</exception>
    /// <exception cref="NoOpenProposal">It is not ready, accepted or dropped already.</exception>
    public Task HandleAsync(Guid id, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(
            async database =>
            {
                var (run, kept) = await OpenProposals.LockAsync(database, id, actor, cancellation);
                run.Result = RunProgress.JsonOf(kept with { Dropped = true });
                return await database.SaveChangesAsync(cancellation);
            },
            cancellation);
    }
}
