using Microsoft.EntityFrameworkCore;
using Nursery.Data;

namespace Nursery.Application.Runs;

/// <summary>Marks runs whose server ended as interrupted, on all sites. At start and every minute.</summary>
public sealed class BuryDeadRuns(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<int> HandleAsync(CancellationToken cancellation = default)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        return await LiveRuns.BuryAsync(database, time, cancellation);
    }
}
