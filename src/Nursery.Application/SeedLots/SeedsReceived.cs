using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.SeedLots;

/// <summary>Seeds ever received of each lot, by its code: the receipts of the ledger.</summary>
internal static class SeedsReceived
{
    public static async Task<Dictionary<string, int>> OfAsync(
        NurseryDbContext database, IEnumerable<SeedLot> lots, CancellationToken cancellation)
    {
        var receipts = await database.Ledger.AsNoTracking()
            .Where(entry => entry.Kind == LedgerKind.Receipt && entry.LotId != null)
            .Select(entry => new { entry.LotId, entry.Value }).ToListAsync(cancellation);
        var sums = receipts.GroupBy(entry => entry.LotId!.Value)
            .ToDictionary(group => group.Key, group => group.Sum(entry => ((Receipt)entry.Value).Seeds));
        return lots.ToDictionary(lot => lot.Code, lot => sums.GetValueOrDefault(lot.Id));
    }
}
