using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.Tests.Ledger;

namespace Nursery.Domain.Tests.Tasks;

/// <summary>A pepper batch of 2 trays, 144 cells, 2 seeds a cell, sown on day 0, 2 March 2026, ready on day 56.</summary>
internal static class RuleFacts
{
    public static readonly LocalDate Day0 = Entries.Day0;

    private static readonly Id<Site> Site = new(new Guid("0195a000-0000-7000-8000-000000000004"));

    public static BatchState Sown() => new() { Stage = BatchStage.Sown, SownOn = Day0, SeedsSown = 288, CellsSown = 144 };

    public static BatchState Up(int day) => Sown() with { Stage = BatchStage.Emerging, FirstUpOn = Day0.PlusDays(day), WateredOn = Day0.PlusDays(day) };

    public static LocalDate Day(int days) => Day0.PlusDays(days);

    public static BatchFacts Of(
        BatchState state,
        int? wantedOn = null,
        int today = 0,
        int seedsPerCell = 2,
        Action<Crop>? crop = null,
        SurfaceMark? surface = null,
        IReadOnlyDictionary<TaskKind, int>? next = null,
        CareGround? care = null)
    {
        var pepper = Pepper();
        crop?.Invoke(pepper);
        return new BatchFacts(
            new Batch
            {
                Id = new Id<Batch>(Guid.CreateVersion7()),
                SiteId = Site,
                Code = "PE-001-A",
                VarietyId = new Id<Variety>(Guid.CreateVersion7()),
                Cells = 144,
                SeedsPerCell = seedsPerCell,
                SowOn = Day0,
                ReadyOn = Day(56),
                State = state,
            },
            pepper,
            2,
            0.8m,
            wantedOn is { } wanted ? Day(wanted) : null,
            next ?? new Dictionary<TaskKind, int>(),
            Day(today),
            Surface: surface,
            Care: care);
    }

    public static PlaceFacts Place(TaskKind kind, int? since, int? doneOn, int today, int next = 1) => new(
        kind == TaskKind.Look
            ? new TaskSubject(Site, null, new Id<Bench>(Guid.CreateVersion7()), null)
            : new TaskSubject(Site, null, null, new Id<House>(Guid.CreateVersion7())),
        "Bench 1A",
        since is null ? 0 : 3,
        since is null ? 0 : 12,
        since is { } days ? Day(days) : null,
        doneOn is { } done ? Day(done) : null,
        next,
        Day(today));

    /// <summary>The one task of a kind among all that are wanted, when it is.</summary>
    public static DueTask? Find(BatchFacts facts, TaskKind kind) => TaskRules.Wanted(facts).SingleOrDefault(task => task.Kind == kind);

    private static Crop Pepper() => new()
    {
        Id = new Id<Crop>(Guid.CreateVersion7()),
        Code = "PE",
        Name = "Pepper",
        Species = "Capsicum annuum",
        GerminationMinC = 18,
        GerminationOptimumC = 29,
        GerminationMaxC = 35,
        DaysToEmergence = 8,
        WeeksToTransplant = 8,
        DepthMm = 6,
        Light = LightNeed.Indifferent,
        CellsPerTray = 72,
        SeedsPerCell = 2,
        MoveOffFraction = 0.5m,
        ThinDaysAfterEmergence = 14,
        FeedFromDays = 7,
        FeedEveryDays = 5,
        SpaceDays = 28,
        HardeningDays = 10,
        GrowOnBand = Band.Warm,
        Sources = "invented for tests",
    };
}
