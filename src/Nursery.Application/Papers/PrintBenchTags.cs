using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Benches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
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

        var printedAt = Instant.FromDateTimeOffset(time.GetUtcNow()).InZone(site.Zone);
        var tags = houses.Where(house => houseCode is null || house.Code == houseCode)
            .SelectMany(house => house.Benches.Select(bench => TagOf(house, bench, site.Units)));
        return BenchTagsDocument.Render(new BenchTagsModel(
            site.Name,
            site.PublicAddress,
            printedAt.ToString("d MMMM uuuu, HH:mm", CultureInfo.InvariantCulture),
            PaperOf(paper ?? site.Paper),
            [.. tags],
            site.IsDemo ? "Invented demo data" : null));
    }

    private static BenchTag TagOf(HousePlan house, HouseBench bench, Units units) => new(
        bench.Code,
        bench.Name,
        house.Name,
        KindOf(bench),
        bench.Capacity,
        [.. bench.Zones.Select(zone => new ZoneLine(
            zone.Code, Run(zone.FirstSpace, zone.Spaces), Degrees.Of(zone.SetpointC, units)))],
        [.. bench.Trays.Where(trays => PatternOf(trays.Stage) is not null).Select(RowOf)]);

    private static BenchTagRow RowOf(BenchTrays trays) => new(
        trays.BatchCode,
        trays.VarietyName,
        trays.CropName,
        trays.LotCode,
        (trays.SownOn ?? trays.SowOn).ToString("d MMMM uuuu", CultureInfo.InvariantCulture),
        trays.Trays,
        trays.FirstSpace is { } first ? Run(first, trays.Spaces!.Value) : "not said",
        PatternOf(trays.Stage)!.Value,
        Cells: trays.Part);

    private static string KindOf(HouseBench bench) => bench.Band is { } band
        ? $"{bench.Kind.ToString().ToLowerInvariant()}, {band.ToString().ToLowerInvariant()}"
        : bench.Kind.ToString().ToLowerInvariant();

    private static string Run(int first, int count) => new Domain.SpaceRun(first, count).ToString();

    private static Paper PaperOf(PaperSize paper) => paper switch
    {
        PaperSize.Letter => Paper.Letter,
        PaperSize.A4 => Paper.A4,
        PaperSize.Roll => Paper.Roll,
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "a paper without a size"),
    };

    private static StagePattern? PatternOf(BatchStage stage) => stage switch
    {
        BatchStage.Planned => StagePattern.Planned,
        BatchStage.Sown => StagePattern.Sown,
        BatchStage.Emerging => StagePattern.Emerging,
        BatchStage.GrowingOn => StagePattern.GrowingOn,
        BatchStage.HardeningOff => StagePattern.HardeningOff,
        BatchStage.Ready => StagePattern.Ready,
        BatchStage.HandedOver or BatchStage.Discarded => null,
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "a stage without a pattern"),
    };
}
