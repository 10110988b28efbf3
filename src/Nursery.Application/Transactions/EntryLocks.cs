using Microsoft.EntityFrameworkCore;
using Nursery.Data;

namespace Nursery.Application.Transactions;

internal static class EntryLocks
{
    /// <summary>Keeps entries of these ids to this transaction until it ends, whether they are stored yet or not. Without it an undo
    /// and what it takes back, arriving at the same moment, would not see each other. Taken before any row lock, in id order.</summary>
    public static Task TakeAsync(NurseryDbContext database, IEnumerable<Guid> ids, CancellationToken cancellation)
    {
        var sorted = ids.Distinct().Order().ToArray();
        return database.Database.ExecuteSqlAsync(
            $"SELECT pg_advisory_xact_lock(hashtextextended(id::text, 0)) FROM unnest({sorted}) AS id", cancellation);
    }
}
