using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Plans;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public class ChangeDraftTests
{
    private static readonly DateOnly _today = new(2026, 3, 2);

    [Theory]
    [InlineData(ChangeKind.BatchSlips, "PE-101-A is 7 days later than planned")]
    [InlineData(ChangeKind.BenchOut, "Bench PE-101-A cannot be used from 2 March 2026 until 9 March 2026: leg broken")]
    [InlineData(ChangeKind.ZoneOut, "Heat zone PE-101-A cannot be used from 2 March 2026 until 9 March 2026: leg broken")]
    [InlineData(ChangeKind.OrderAdded, "500 plants of PE-101-A more are ordered for 2 March 2026")]
    [InlineData(ChangeKind.BatchCancelled, "PE-101-A is no longer wanted")]
    [InlineData(ChangeKind.ZoneSetpoints, "Heat zone PE-101-A may be set to 70, 82.5 °F and to nothing else")]
    [InlineData(ChangeKind.SpacesRented, "20 spaces on a warm bench more from 2 March 2026 until 9 March 2026")]
    [InlineData(ChangeKind.MoreHardening, "20 spaces for hardening off more")]
    [InlineData(ChangeKind.Price, "Other prices: a tray a day late 150¢")]
    public void Made_EveryKind_IsTheChangeThatWasWrittenDown(ChangeKind kind, string words) =>
        Assert.Equal(words, EventWords.Of(Draft(kind).Made(Units.UsCustomary)!));

    [Theory]
    [InlineData(ChangeKind.BatchSlips)]
    [InlineData(ChangeKind.BenchOut)]
    [InlineData(ChangeKind.ZoneOut)]
    [InlineData(ChangeKind.OrderAdded)]
    [InlineData(ChangeKind.BatchCancelled)]
    [InlineData(ChangeKind.ZoneSetpoints)]
    public void Made_NothingChosen_IsNone(ChangeKind kind)
    {
        var draft = Draft(kind);
        draft.Code = "  ";

        Assert.Null(draft.Made(Units.UsCustomary));
    }

    /// <summary>°F = °C × 1.8 + 32 (definition): 25 °C are 77 °F.</summary>
    [Fact]
    public void Made_SetpointsOfAMetricSite_AreCelsius()
    {
        var draft = Draft(ChangeKind.ZoneSetpoints);
        draft.Setpoints = "25";

        Assert.Equal([77.0], Assert.IsType<TriedSetpoints>(draft.Made(Units.Metric)).SetpointsF);
    }

    [Fact]
    public void Made_SetpointsThatAreNoNumbers_IsNone()
    {
        var draft = Draft(ChangeKind.ZoneSetpoints);
        draft.Setpoints = "70; warm";

        Assert.Null(draft.Made(Units.UsCustomary));
    }

    [Fact]
    public void Made_EveryPrice_ChangesThatPriceAlone()
    {
        foreach (var price in Enum.GetValues<PriceKind>())
        {
            var draft = Draft(ChangeKind.Price);
            draft.Price = price;

            var (field, _, cents) = Assert.Single(EventWords.Set(Assert.IsType<TriedPrices>(draft.Made(Units.UsCustomary))));
            Assert.Equal((price.ToString(), 150), (char.ToUpperInvariant(field[0]) + field[1..], cents));
        }
    }

    [Fact]
    public void Kinds_ToKeep_AreWhatHappens() =>
        Assert.Equal([ChangeKind.BatchSlips, ChangeKind.BenchOut, ChangeKind.ZoneOut], ChangeDraft.Kinds(PlanAim.Keep));

    private static ChangeDraft Draft(ChangeKind kind) => new(_today)
    {
        Kind = kind,
        Code = " PE-101-A ",
        Why = "leg broken",
        Setpoints = "70; 82.5",
        Amount = 1.5m,
    };
}
