using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.Tests.Ledger;
using Xunit;

namespace Nursery.Domain.Tests.Tasks;

/// <summary>The day counts are common practice, no source; the tables say what the product does with them.</summary>
public sealed class TaskRulesTests
{
    private static readonly LocalDate Day0 = Entries.Day0;

    [Fact]
    public void Wanted_Planned_IsSowingOnItsDay()
    {
        var task = Assert.Single(TaskRules.Wanted(Facts(BatchState.Planned, wantedOn: Day0.PlusDays(60))));

        Assert.Equal(
            new DueTask(TaskKind.Sow, 1, Day0, "2 trays, 2 seeds a cell; wanted 1 May, 60 days after sowing"), task);
    }

    [Fact]
    public void Wanted_Sown_WatersAtOnceLooksAndPlansTheMove()
    {
        var tasks = TaskRules.Wanted(Facts(Sown()));

        // 8 days to emergence: first look at 70 % of that, 6 days; planned on heat 10 days; handed over in 56 days, beyond the 30.
        Assert.Equal(
            [(TaskKind.Water, Day0), (TaskKind.EmergenceCheck, Day0.PlusDays(6)), (TaskKind.MoveOffHeat, Day0.PlusDays(10))],
            tasks.Select(task => (task.Kind, task.DueOn)));
        Assert.Contains("not watered yet", tasks[0].Why, StringComparison.Ordinal);
        Assert.Contains("about 8 days; none counted yet", tasks[1].Why, StringComparison.Ordinal);
        Assert.Contains("Planned 10 days on heat since 2 March; leave once 50 %", tasks[2].Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false, 2)]
    [InlineData(true, 1)]
    public void Wanted_Watered_ComesAgain(bool offHeat, int days)
    {
        var state = Sown() with { WateredOn = Day0.PlusDays(3), OffHeatOn = offHeat ? Day0.PlusDays(3) : null };

        var water = TaskRules.Wanted(Facts(state, next: 5)).Single(task => task.Kind == TaskKind.Water);

        Assert.Equal((Day0.PlusDays(3 + days), 5), (water.DueOn, water.Occurrence));
        Assert.Contains("Last watered 5 March", water.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Wanted_LookedAndSeenNothing_LooksAgainInTwoDays()
    {
        Assert.Equal(Day0.PlusDays(9), Find(Sown() with { LookedOn = Day0.PlusDays(7) }, TaskKind.EmergenceCheck)!.DueOn);

        // A look long before anything can be up does not bring the first real one forward.
        Assert.Equal(Day0.PlusDays(6), Find(Sown() with { LookedOn = Day0.PlusDays(1) }, TaskKind.EmergenceCheck)!.DueOn);
    }

    [Theory]
    [InlineData(0.79, false)]
    [InlineData(0.80, true)]
    public void Wanted_ShareOfExpectedUp_MovesOffHeatNow(double share, bool now)
    {
        // Moved off at half of the expected plants: 0.5 × label germination 0.8 = 0.4 of the seeds.
        var up = (decimal)share * 0.5m * 288;
        var move = Find(Sown() with { CountedSeeds = 288, CountedUp = up, CountedOn = Day0.PlusDays(7) }, TaskKind.MoveOffHeat)!;

        Assert.Equal(now ? Day0.PlusDays(7) : Day0.PlusDays(10), move.DueOn);
        Assert.Equal(now, move.Why.Contains("40 % of seeds are up: take 2 trays off", StringComparison.Ordinal));
    }

    [Fact]
    public void Wanted_OffHeat_StopsLookingAndMoving()
    {
        var state = Sown() with { OffHeatOn = Day0.PlusDays(9), Stage = BatchStage.GrowingOn };

        Assert.Null(Find(state, TaskKind.EmergenceCheck));
        Assert.Null(Find(state, TaskKind.MoveOffHeat));
    }

    [Fact]
    public void Wanted_Up_ThinsAfterTheProfilesDays()
    {
        var thin = Find(Sown() with { FirstUpOn = Day0.PlusDays(7) }, TaskKind.Thin)!;

        Assert.Equal((Day0.PlusDays(21), 1), (thin.DueOn, thin.Occurrence));
        Assert.Contains("14 days later", thin.Why, StringComparison.Ordinal);
        Assert.Contains("144 cells", thin.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Wanted_NothingToThin_AsksForNone()
    {
        var up = Sown() with { FirstUpOn = Day0.PlusDays(7) };

        Assert.Null(Find(up with { ThinnedOn = Day0.PlusDays(20) }, TaskKind.Thin));
        Assert.DoesNotContain(TaskRules.Wanted(Facts(up, seedsPerCell: 1)), task => task.Kind == TaskKind.Thin);
        Assert.DoesNotContain(TaskRules.Wanted(Facts(up, thinDays: null)), task => task.Kind == TaskKind.Thin);
    }

    [Fact]
    public void Wanted_HandOver_IsRaisedThirtyDaysBefore()
    {
        var wanted = Day0.PlusDays(60);
        Assert.DoesNotContain(TaskRules.Wanted(Facts(Sown(), wanted, wanted.PlusDays(-31))), task => task.Kind == TaskKind.HandOver);

        var task = TaskRules.Wanted(Facts(Sown(), wanted, wanted.PlusDays(-30))).Single(row => row.Kind == TaskKind.HandOver);

        Assert.Equal(wanted, task.DueOn);
        Assert.Contains("an order wants them that day", task.Why, StringComparison.Ordinal);
        Assert.Equal(Day0.PlusDays(56), TaskRules.Wanted(Facts(Sown(), null, wanted)).Single(row => row.Kind == TaskKind.HandOver).DueOn);
    }

    [Theory]
    [InlineData(BatchStage.HandedOver)]
    [InlineData(BatchStage.Discarded)]
    public void Wanted_BatchIsGone_AsksForNothing(BatchStage stage) =>
        Assert.Empty(TaskRules.Wanted(Facts(Sown() with { Stage = stage })));

    [Fact]
    public void Wanted_AnyState_HasAtMostOneOfAKind() => Assert.All(
        new[] { BatchState.Planned, Sown(), Sown() with { FirstUpOn = Day0, WateredOn = Day0, LookedOn = Day0 } },
        state => Assert.Distinct(TaskRules.Wanted(Facts(state)).Select(task => task.Kind)));

    private static DueTask? Find(BatchState state, TaskKind kind) =>
        TaskRules.Wanted(Facts(state)).SingleOrDefault(task => task.Kind == kind);

    private static BatchState Sown() => new() { Stage = BatchStage.Sown, SownOn = Day0, SeedsSown = 288, CellsSown = 144 };

    private static BatchFacts Facts(
        BatchState state, LocalDate? wantedOn = null, LocalDate? today = null, int next = 1, int seedsPerCell = 2, int? thinDays = 14) => new(
            new Batch
            {
                Id = new Id<Batch>(Guid.CreateVersion7()),
                SiteId = new Id<Site>(Guid.CreateVersion7()),
                Code = "PE-001-A",
                VarietyId = new Id<Variety>(Guid.CreateVersion7()),
                Cells = 144,
                SeedsPerCell = seedsPerCell,
                SowOn = Day0,
                ReadyOn = Day0.PlusDays(56),
                State = state,
            },
            Pepper(thinDays),
            2,
            0.8m,
            wantedOn,
            new Dictionary<TaskKind, int> { [TaskKind.Water] = next },
            today ?? Day0);

    private static Crop Pepper(int? thinDays) => new()
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
        ThinDaysAfterEmergence = thinDays,
        HardeningDays = 10,
        GrowOnBand = Band.Warm,
        Sources = "invented for tests",
    };
}
