using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.SeedLots;

/// <summary>A seed lot to sow from. Germination 0–1; <paramref name="Retired"/> lots are told of, never sown.</summary>
public sealed record LotItem(
    Guid Id,
    string Code,
    string Supplier,
    SeedForm Form,
    bool Treated,
    decimal LabelGermination,
    LocalDate TestedOn,
    int StockSeeds,
    bool Retired);

/// <summary>The seed lots of a variety: those with seed in stock first, then by label germination.</summary>
public sealed class ListLotsOf(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<IReadOnlyList<LotItem>> HandleAsync(
        string varietyCode, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        return await (
            from lot in database.SeedLots
            join variety in database.Varieties on lot.VarietyId equals variety.Id
            where variety.Code == varietyCode
            orderby lot.StockSeeds == 0, lot.LabelGermination descending, lot.Code
            select new LotItem(
                lot.Id.Value, lot.Code, lot.Supplier, lot.Form, lot.Treated, lot.LabelGermination, lot.TestedOn,
                lot.StockSeeds, lot.RetiredOn != null)).ToListAsync(cancellation);
    }
}
