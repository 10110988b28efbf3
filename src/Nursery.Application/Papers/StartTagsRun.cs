using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Papers;

/// <summary>Queues a print of tray tags, however many. Whoever hosts the jobs gives the run to <see cref="RunTags"/>. A paper
/// changes nothing on the site, so the ledger says nothing of it; the run itself says who printed what and when.</summary>
public sealed class StartTagsRun(IDbContextFactory<NurseryDbContext> databases, PrintTrayTags print, TimeProvider time)
{
    /// <summary>Tags of a print: a PDF of some 40 MB, about as many sheets as a desk printer's day.</summary>
    public const int Most = 20_000;

    /// <exception cref="InvalidFields">No batch or tray set of that code, or no such house.</exception>
    /// <exception cref="TooManyTags">More than <see cref="Most"/>.</exception>
    /// <exception cref="RunUnderWay">One is under way on this site.</exception>
    public async Task<TagsRun> HandleAsync(TrayTagsRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(RunRights.For(RunKind.TrayTags));
        var total = await print.CountAsync(request, actor, cancellation);
        if (total > Most)
        {
            throw new TooManyTags(total, Most);
        }

        return await databases.RunAsync(
            async database =>
            {
                var run = await LiveRuns.BeginAsync(database, RunKind.TrayTags, total, actor, time, cancellation);
                run.Result = RunProgress.JsonOf(request);
                await database.SaveChangesAsync(cancellation);
                return TagsRun.From(run, null, null);
            },
            cancellation);
    }
}
