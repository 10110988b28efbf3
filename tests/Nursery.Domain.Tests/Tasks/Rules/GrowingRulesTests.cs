using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks.Rules;

public sealed class GrowingRulesTests
{
    [Fact]
    public void Thin_Up_IsTheProfilesDaysLater()
    {
        var thin = Find(Of(Up(7)), TaskKind.Thin)!;

        Assert.Equal((Day(21), 1), (thin.DueOn, thin.Occurrence));
        Assert.Equal("Up since 9 March; thin to one a cell 14 days later, at the first true leaf; 144 cells", thin.Why);
    }

    [Fact]
    public void Thin_OffHeatWithoutACount_CountsFromThere() =>
        Assert.Equal(Day(24), Find(Of(Sown() with { OffHeatOn = Day(10) }), TaskKind.Thin)!.DueOn);

    [Fact]
    public void Thin_NothingToThin_IsNotAskedFor()
    {
        Assert.Null(Find(Of(Up(7) with { ThinnedOn = Day(20) }), TaskKind.Thin));
        Assert.Null(Find(Of(Up(7), seedsPerCell: 1), TaskKind.Thin));
        Assert.Null(Find(Of(Up(7), crop: crop => crop.ThinDaysAfterEmergence = null), TaskKind.Thin));
        Assert.Null(Find(Of(Sown()), TaskKind.Thin));
    }

    [Theory]
    [InlineData(null, 15, "not fed yet; every 5 days from 7 days after emergence")]
    [InlineData(16, 21, "last fed 18 March")]
    [InlineData(9, 15, "last fed 11 March")]
    public void Feed_Up_ComesByTheProfile(int? fedOn, int due, string why)
    {
        var feed = Find(Of(Up(8) with { FedOn = fedOn is { } day ? Day(day) : null }), TaskKind.Feed)!;

        Assert.Equal(Day(due), feed.DueOn);
        Assert.Contains(why, feed.Why, StringComparison.Ordinal);
        Assert.EndsWith("the product's label goes before this", feed.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Feed_BeforeUpOrWhileHardeningOrNever_IsNotAskedFor()
    {
        Assert.Null(Find(Of(Sown()), TaskKind.Feed));
        Assert.Null(Find(Of(Up(8) with { Stage = BatchStage.HardeningOff }), TaskKind.Feed));
        Assert.Null(Find(Of(Up(8), crop: crop => (crop.FeedFromDays, crop.FeedEveryDays) = (null, null)), TaskKind.Feed));
    }

    [Fact]
    public void Spacing_Up_IsOnceTheProfilesDaysLater()
    {
        Assert.Equal(Day(36), Find(Of(Up(8), today: 10), TaskKind.Spacing)!.DueOn);
        Assert.Null(Find(Of(Up(8) with { SpacedOn = Day(30) }, today: 30), TaskKind.Spacing));
        Assert.Null(Find(Of(Up(8), today: 30, crop: crop => crop.SpaceDays = null), TaskKind.Spacing));
    }
}
