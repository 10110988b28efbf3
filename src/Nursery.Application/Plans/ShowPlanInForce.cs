using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>The reservations and setpoints in force, as a proposal is drawn.</summary>
/// <param name="Start">First day drawn, a Monday.</param>
/// <param name="Days">Up to the week in which the last trays leave.</param>
/// <param name="Lines">By zone and bench.</param>
/// <param name="Loads">How full it gets, by kind of place.</param>
/// <param name="Unplaced">Batches not sown yet that have no place.</param>
/// <param name="Names">Variety of every batch, by code.</param>
/// <param name="Ids">Of every batch, by code.</param>
/// <param name="Sharing">Batches in the trays of a batch, itself not counted, by code.</param>
public sealed record PlanInForce(
    DateOnly Start, int Days, IReadOnlyList<PlanLine> Lines, IReadOnlyList<PlaceLoad> Loads, IReadOnlyList<NotInPlan> Unplaced,
    IReadOnlyDictionary<string, string> Names, IReadOnlyDictionary<string, Guid> Ids, IReadOnlyDictionary<string, IReadOnlyList<string>> Sharing);

/// <summary>The plan in force, from this week's Monday on.</summary>
public sealed class ShowPlanInForce(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<PlanInForce> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var (season, today, start) = await SeasonProblems.RowsAsync(database, actor, time, cancellation);
        var ground = SeasonProblems.Of(season, today, start, SeasonAsk.Whole);
        var problem = SeasonSpan.Drawn(ground.Problem, ground.Today);
        var rows = await RowsAsync(database, actor, cancellation);
        var sets = rows.ToLookup(row => row.TraySet, row => row.Code);
        return new PlanInForce(
            problem.Start, problem.Days, PlanLines.Of(problem, ground.Today), SeasonLoads.Of(problem, ground.Today),
            [.. ground.Today.Unplaced.Select(batch => new NotInPlan(batch.Id, batch.Trays, batch.Why))],
            rows.DistinctBy(row => row.Code).ToDictionary(row => row.Code, row => row.Variety),
            rows.DistinctBy(row => row.Code).ToDictionary(row => row.Code, row => row.Id),
            rows.GroupBy(row => row.Code).ToDictionary(
                group => group.Key, IReadOnlyList<string> (group) => [.. group.SelectMany(row => sets[row.TraySet]).Where(code => code != group.Key).Distinct().Order(StringComparer.Ordinal)]));
    }

    private static async Task<List<(string Code, Guid Id, string Variety, Guid TraySet)>> RowsAsync(
        NurseryDbContext database, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var rows = await (
            from batch in database.Batches
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            join share in database.TrayShares on batch.Id equals share.BatchId
            where batch.SiteId == site.Id && batch.State.Stage != BatchStage.HandedOver && batch.State.Stage != BatchStage.Discarded
            select new { batch.Code, batch.Id, Crop = crop.Name, Variety = variety.Name, share.TraySetId }).AsNoTracking().ToListAsync(cancellation);
        return [.. rows.Select(row => (row.Code, row.Id.Value, $"{row.Crop} ‘{row.Variety}’", row.TraySetId.Value))];
    }
}
