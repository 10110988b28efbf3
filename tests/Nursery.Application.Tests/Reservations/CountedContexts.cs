using Microsoft.EntityFrameworkCore;
using Nursery.Data;

namespace Nursery.Application.Tests.Reservations;

/// <summary>Makes contexts, and lets something happen before the n-th: a stop in the middle of a run, or the end of its server.</summary>
internal sealed class CountedContexts(IDbContextFactory<NurseryDbContext> contexts, Func<int, Task> before) : IDbContextFactory<NurseryDbContext>
{
    private int _made;

    public NurseryDbContext CreateDbContext() => throw new NotSupportedException("Use cases ask asynchronously.");

    public async Task<NurseryDbContext> CreateDbContextAsync(CancellationToken cancellationToken = default)
    {
        await before(++_made);
        return await contexts.CreateDbContextAsync(cancellationToken);
    }
}
