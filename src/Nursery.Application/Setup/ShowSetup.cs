using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Benches;
using Nursery.Domain.People;

namespace Nursery.Application.Setup;

/// <summary>What a nursery needs before its first sowing.</summary>
public enum SetupStep
{
    House,
    GerminationBench,
    HeatZone,
    GrowingBench,
    Variety,
    SeedLot,
    OrderLine,
}

/// <summary>What is set up, and what a first sowing still lacks, in the order to do it in.</summary>
public sealed record SetupState(
    int Houses, int Benches, int Spaces, int HeatZones, int Crops, int Varieties, int SeedLots, int People, int ApiKeys,
    IReadOnlyList<SetupStep> Missing);

public sealed class ShowSetup(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<SetupState> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = actor.SiteId;
        var benches = await database.Benches.Where(row => row.SiteId == site && row.RetiredOn == null)
            .Select(row => new { row.Kind, row.Capacity }).ToListAsync(cancellation);
        var houses = await database.Houses.CountAsync(row => row.SiteId == site && row.RetiredOn == null, cancellation);
        var zones = await database.HeatZones.CountAsync(row => row.SiteId == site, cancellation);
        var varieties = await database.Varieties.CountAsync(row => row.RetiredOn == null, cancellation);
        var lots = await database.SeedLots.CountAsync(row => row.RetiredOn == null, cancellation);
        var orders = await database.OrderLines.AnyAsync(row => row.SiteId == site, cancellation);
        var missing = new (SetupStep Step, bool There)[]
        {
            (SetupStep.House, houses > 0),
            (SetupStep.GerminationBench, benches.Exists(bench => bench.Kind == BenchKind.Germination)),
            (SetupStep.HeatZone, zones > 0),
            (SetupStep.GrowingBench, benches.Exists(bench => bench.Kind == BenchKind.Growing)),
            (SetupStep.Variety, varieties > 0),
            (SetupStep.SeedLot, lots > 0),
            (SetupStep.OrderLine, orders),
        };
        return new SetupState(
            houses,
            benches.Count,
            benches.Sum(bench => bench.Capacity),
            zones,
            await database.Crops.CountAsync(row => row.RetiredOn == null, cancellation),
            varieties,
            lots,
            await database.PersonSites.CountAsync(row => row.SiteId == site, cancellation),
            await database.ApiKeys.CountAsync(row => row.SiteId == site && row.RevokedAt == null, cancellation),
            [.. missing.Where(step => !step.There).Select(step => step.Step)]);
    }
}
