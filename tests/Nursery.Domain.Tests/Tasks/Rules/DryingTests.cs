using System.Text.RegularExpressions;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks.Rules;

/// <summary>Watering by what is reckoned. Covered trays on heat about every other day, bare ones and those under light about daily: common
/// practice, no source.</summary>
public sealed class DryingTests
{
    /// <summary>72 cells at 43° north, the usual cover.</summary>
    private static readonly CareGround March = new(72, 43m);

    [Fact]
    public void Water_CoveredOnHeat_IsEveryOtherDayAndSaysWhy()
    {
        var water = Find(Of(Sown() with { WateredOn = Day(3) }, care: March), TaskKind.Water)!;

        Assert.Equal(Day(5), water.DueOn);
        Assert.Matches(@"^Last watered 5 March; 72 cells, covered, on heat: dry in about [12]\.\d days \(1\.\d–2\.\d\)$", water.Why);
    }

    [Fact]
    public void Water_SurfaceSownOnHeat_IsDaily() => Assert.Equal(
        Day(4), Find(Of(Sown() with { WateredOn = Day(3) }, care: March, crop: crop => crop.DepthMm = 0), TaskKind.Water)!.DueOn);

    /// <summary>Roots reach the whole plug from the first true leaf on; it is never left for more than two days under light.</summary>
    [Theory]
    [InlineData(10, 12, "seed leaves, under light")]
    [InlineData(24, 26, "true leaves, under light")]
    [InlineData(40, 42, "closed leaves, under light")]
    public void Water_UnderLight_FollowsTheStageWithinTwoDays(int watered, int due, string stage)
    {
        var state = Up(8) with { OffHeatOn = Day(9), WateredOn = Day(watered) };

        var water = Find(Of(state, care: March, today: watered), TaskKind.Water)!;

        Assert.InRange(water.DueOn, Day(due - 1), Day(due));
        Assert.Contains(stage, water.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Water_SmallCellsWarmAirAndSummer_DryEarlier()
    {
        var state = Up(8) with { OffHeatOn = Day(9), WateredOn = Day(40) };
        double Dry(CareGround care, int watered = 40) => double.Parse(
            Regex.Match(Find(Of(state with { WateredOn = Day(watered) }, care: care, today: watered), TaskKind.Water)!.Why, @"about (\d+\.\d) days").Groups[1].Value,
            System.Globalization.CultureInfo.InvariantCulture);

        Assert.True(Dry(March with { CellsPerTray = 288 }) < Dry(March));
        Assert.True(Dry(March with { AirC = 28 }) < Dry(March with { AirC = 12 }));
        Assert.True(Dry(March, 100) < Dry(March));
        Assert.True(Dry(March with { CoverShare = 0.8m }) < Dry(March with { CoverShare = 0.2m }));
    }

    /// <summary>Watered every other day; dry the day after, time and again: the bench dries faster than thought, at most twice as fast.</summary>
    [Fact]
    public void Water_DryMarks_TeachTheBenchWithinBounds()
    {
        var state = Sown() with { WateredOn = Day(20) };
        var care = March with
        {
            Waterings = [.. Enumerable.Range(0, 11).Select(number => Day(2 * number))],
            Marks = [.. Enumerable.Range(0, 10).Select(number => new SurfaceMark(SurfaceState.Dry, Day(1 + (2 * number))))],
        };

        var water = Find(Of(state, care: care, today: 20), TaskKind.Water)!;

        Assert.Equal(Day(21), water.DueOn);
        Assert.Matches(@"this bench dries (1\.[4-9]|2\.0) × as fast as usual by \d+ marks$", water.Why);
        var damp = care with { Marks = [.. care.Marks!.Select(mark => mark with { State = SurfaceState.Damp })] };
        Assert.Equal(Find(Of(state, care: March, today: 20), TaskKind.Water), Find(Of(state, care: damp, today: 20), TaskKind.Water));
    }

    [Fact]
    public void Water_WetMarks_SlowTheBenchAndPostponeWithAWarning()
    {
        var state = Sown() with { WateredOn = Day(20) };
        var care = March with { Waterings = [Day(16), Day(18), Day(20)], Marks = [new(SurfaceState.Wet, Day(18)), new(SurfaceState.Wet, Day(22))] };

        var water = Find(Of(state, care: care, today: 22, surface: new SurfaceMark(SurfaceState.Wet, Day(22))), TaskKind.Water)!;

        Assert.Equal(Day(23), water.DueOn);
        Assert.Contains("wet mix invites damping-off", water.Why, StringComparison.Ordinal);
        Assert.Matches(@"dries 0\.[5-9] × as fast as usual by 2 marks", water.Why);
    }

    [Fact]
    public void Look_HoweverLateWaterIs_StaysDaily()
    {
        Assert.Equal(Day(21), TaskRules.Wanted(Place(TaskKind.Look, 0, 20, 20)).Single().DueOn);
        Assert.InRange(Find(Of(Sown() with { WateredOn = Day(3) }, care: March with { Latitude = 80, AirC = 5 }), TaskKind.Water)!.DueOn, Day(4), Day(6));
    }

    /// <summary>ppm ÷ 10 ÷ percent × ratio grams in a liter (University of Massachusetts Extension): 50 ppm of a 20 % feed at 1:100 are 25 g.</summary>
    [Theory]
    [InlineData(8, 15, "50 ppm N on seed leaves: 25 g of a 20 % N feed in each liter of concentrate at 1:100")]
    [InlineData(20, 25, "100–150 ppm N with true leaves: 50–75 g of a 20 % N feed in each liter of concentrate at 1:100")]
    public void Feed_FeedAndInjectorTold_SaysGrams(int fedOn, int due, string why)
    {
        var state = Up(8) with { FedOn = fedOn == 8 ? null : Day(fedOn) };

        var feed = Find(Of(state, care: March with { InjectorRatio = 100, FeedNitrogenPercent = 20 }), TaskKind.Feed)!;

        Assert.Equal(Day(due), feed.DueOn);
        Assert.Contains(why, feed.Why, StringComparison.Ordinal);
        Assert.EndsWith("the product's label goes before this", feed.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Feed_NoInjector_SaysGramsInWater()
    {
        Assert.Contains(
            "50 ppm N on seed leaves: 0.25 g of a 20 % N feed in each liter of water",
            Find(Of(Up(8), care: March with { FeedNitrogenPercent = 20 }), TaskKind.Feed)!.Why, StringComparison.Ordinal);
        Assert.Contains("50 ppm N on seed leaves; the product's label", Find(Of(Up(8), care: March), TaskKind.Feed)!.Why, StringComparison.Ordinal);
    }
}
