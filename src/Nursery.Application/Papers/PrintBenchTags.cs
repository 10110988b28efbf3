using Microsoft.EntityFrameworkCore;
using Nursery.Application.Benches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Printing;
using Nursery.Printing.BenchTags;

namespace Nursery.Application.Papers;

/// <summary>Bench tags of one house or of all, on paper of a size or the site's own.</summary>
public sealed class PrintBenchTags(
    IDbContextFactory<NurseryDbContext> databases, ShowHouses showHouses, TimeProvider time)
{
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No such house.</exception>
    public async Task<byte[]> HandleAsync(
        string? houseCode, PaperSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var houses = (await showHouses.HandleAsync(null, actor, cancellation)).Houses;
        if (houseCode is not null && houses.All(house => house.Code != houseCode))
        {
            throw new InvalidFields("house", houseCode, string.Join(", ", houses.Select(house => house.Code)));
        }

        var next = await NextSteps.LoadAsync(database, site.Id, cancellation);
        var tags = houses.Where(house => houseCode is null || house.Code == houseCode)
            .SelectMany(house => house.Benches.Select(bench => TagOf(house, bench, site.Units, next)));
        return BenchTagsDocument.Render(new BenchTagsModel(
            site.Imprint(time),
            site.PublicAddress,
            PaperOf(paper ?? site.Paper),
            [.. tags]));
    }

    private static BenchTag TagOf(HousePlan house, HouseBench bench, Units units, NextSteps next) => new(
        bench.Code,
        bench.Name,
        house.Name,
        KindOf(bench),
        bench.Capacity,
        [.. bench.Zones.Select(zone => new ZoneLine(
            zone.Code, Run(zone.FirstSpace, zone.Spaces), Degrees.Of(zone.SetpointC, units)))],
        [.. bench.Trays.Where(trays => PaperWords.Pattern(trays.Stage) is not null).Select(trays => RowOf(trays, next))]);

    private static BenchTagRow RowOf(BenchTrays trays, NextSteps next) => new(
        trays.BatchCode,
        trays.VarietyName,
        trays.CropName,
        trays.LotCode,
        trays.SownOn is { } sown ? PaperWords.Day(sown) : null,
        trays.Trays,
        trays.FirstSpace is { } first ? Run(first, trays.Spaces!.Value) : "not said",
        PaperWords.Pattern(trays.Stage)!.Value,
        next.Of(new Id<Batch>(trays.BatchId)),
        trays.Part);

    private static string KindOf(HouseBench bench) => bench.Band is { } band
        ? $"{bench.Kind.ToString().ToLowerInvariant()}, {band.ToString().ToLowerInvariant()}"
        : bench.Kind.ToString().ToLowerInvariant();

    private static string Run(int first, int count) => new SpaceRun(first, count).ToString();

    private static Paper PaperOf(PaperSize paper) => paper switch
    {
        PaperSize.Letter => Paper.Letter,
        PaperSize.A4 => Paper.A4,
        PaperSize.Roll => Paper.Roll,
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "a paper without a size"),
    };
}
