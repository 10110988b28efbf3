using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Benches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Printing.BenchPlans;

namespace Nursery.Application.Papers;

/// <summary>Houses as they are on a day, seen from above, each on one page.</summary>
public sealed class PrintBenchPlan(IDbContextFactory<NurseryDbContext> databases, ShowHouses showHouses, TimeProvider time)
{
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No such house.</exception>
    public async Task<byte[]> HandleAsync(
        string? house, LocalDate? on, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var day = await showHouses.HandleAsync(on, actor, cancellation);
        var houses = day.Houses.Where(row => house is null || row.Code == house).ToList();
        return house is not null && houses.Count == 0
            ? throw new InvalidFields("house", house, "the code of a house of this site")
            : BenchPlanDocument.Render(new BenchPlanModel(
                site.Imprint(time), site.Sheet(paper), [.. houses.Select(row => HouseOf(row, day.Day, site.Units))]));
    }

    private static PlanHouse HouseOf(HousePlan house, LocalDate day, Units units)
    {
        int free = house.Benches.Sum(bench => bench.Free), all = house.Benches.Sum(bench => bench.Capacity);
        return new PlanHouse(
            house.Name,
            PaperWords.Day(day),
            FormattableString.Invariant($"{free} of {PaperWords.Count(all, "space is", "spaces are")} free"),
            house.LengthCm,
            house.WidthCm,
            [
                .. house.Benches.Select(bench => new PlanBench(
                    bench.Code, bench.XCm, bench.YCm, bench.LengthCm, bench.WidthCm, bench.Capacity, bench.Rows,
                    [.. bench.Zones.Select(zone => new PlanZone(zone.Code, zone.FirstSpace, zone.Spaces, Degrees.Of(zone.SetpointC, units)))],
                    [.. SetsOf(bench)])),
            ]);
    }

    /// <summary>Batches that share trays lie in the same spaces: one entry for all.</summary>
    private static IEnumerable<PlanTrays> SetsOf(HouseBench bench) => bench.Trays
        .Where(trays => PaperWords.Pattern(trays.Stage) is not null)
        .GroupBy(trays => (trays.TraySetCode, trays.FirstTray, trays.FirstSpace))
        .Select(set => set.ToList())
        .Select(set => new PlanTrays(
            set.Count == 1 ? set[0].BatchCode : set[0].TraySetCode,
            set.Count == 1 ? set[0].VarietyName : PaperWords.Count(set.Count, "variety", "varieties"),
            PaperWords.Trays(set[0].Trays),
            set[0].FirstSpace,
            set[0].Spaces ?? 0,
            PaperWords.Pattern(set[0].Stage)!.Value));
}
