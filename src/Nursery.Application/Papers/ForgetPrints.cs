using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Data;

namespace Nursery.Application.Papers;

/// <summary>Throws away prints that were kept long enough, on all sites. Every hour.</summary>
public sealed class ForgetPrints(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>How many.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellation = default)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = LiveRuns.Now(time);
        return await database.KeptPrints.Where(print => print.KeptUntil <= now).ExecuteDeleteAsync(cancellation);
    }
}
