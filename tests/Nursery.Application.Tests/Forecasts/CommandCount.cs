using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Nursery.Data;
using Nursery.Testing.Database;

namespace Nursery.Application.Tests.Forecasts;

/// <summary>Makes contexts, and counts what is asked of PostgreSQL through them.</summary>
internal sealed class CommandCount(TestDatabase database) : DbCommandInterceptor, IDbContextFactory<NurseryDbContext>
{
    private int _commands;

    public int Take() => Interlocked.Exchange(ref _commands, 0);

    public NurseryDbContext CreateDbContext()
    {
        var options = new DbContextOptionsBuilder<NurseryDbContext>();
        options.UseNurseryDatabase(database.AppConnectionString).AddInterceptors(this);
        return new NurseryDbContext(options.Options);
    }

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
    {
        Interlocked.Increment(ref _commands);
        return ValueTask.FromResult(result);
    }
}
