using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Sites;

namespace Nursery.Application.Batches;

internal static class BatchCodes
{
    /// <summary>The next batch code of a crop on a site. The counter row is locked until the transaction ends, so no code is given twice.</summary>
    public static async Task<string> NextAsync(
        NurseryDbContext database, Id<Site> siteId, string cropCode, CancellationToken cancellation)
    {
        var numbers = await database.Database.SqlQuery<int>($"""
            INSERT INTO code_counters (site_id, prefix, last) VALUES ({siteId.Value}, {cropCode}, 1)
            ON CONFLICT (site_id, prefix) DO UPDATE SET last = code_counters.last + 1
            RETURNING last AS "Value"
            """).ToListAsync(cancellation);
        return HumanCode.ForBatch(cropCode, numbers.Single());
    }
}
