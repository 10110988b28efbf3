using NodaTime;
using Nursery.Application.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.HeatZones;

public sealed class SetSetpointTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_SpanOfDays_HoldsThenOnly()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var today = nursery.Today;

        await SetAsync(nursery, 24m, today.PlusDays(5), today.PlusDays(8));

        Assert.Equal(
            [(today, today.PlusDays(5), 26.67m), (today.PlusDays(5), today.PlusDays(8), 24m), (today.PlusDays(8), today.PlusDays(20), 26.67m)],
            await ProgramAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_SpanInsideASpan_CutsIt()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var today = nursery.Today;
        await SetAsync(nursery, 24m, today, today.PlusDays(10));

        await SetAsync(nursery, 30m, today.PlusDays(3), today.PlusDays(5));

        Assert.Equal([24m, 30m, 24m, 26.67m], (await ProgramAsync(nursery)).Select(stretch => stretch.Item3));
        Assert.Equal([3, 2, 5, 10], (await ProgramAsync(nursery)).Select(stretch => Period.DaysBetween(stretch.Item1, stretch.Item2)));
    }

    [Fact]
    public async Task HandleAsync_ForGoodFromALaterDay_TheOldOneHoldsUntilThen()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var today = nursery.Today;

        await SetAsync(nursery, 20m, today.PlusDays(4), null);

        Assert.Equal([(today, today.PlusDays(4), 26.67m), (today.PlusDays(4), today.PlusDays(20), 20m)], await ProgramAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_SeedThatDoesNotAcceptIt_IsRefusedByName()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        var today = nursery.Today;
        await nursery.ReserveAsync(batch, "G1", 1, today.PlusDays(2), today.PlusDays(6));

        var harm = await Assert.ThrowsAsync<WouldHarm>(() => SetAsync(nursery, 15m, today.PlusDays(5), today.PlusDays(9)));

        var trays = Assert.Single(harm.Harmed);
        Assert.Equal((batch.TraySetCode, "Pepper", 18.33m, 35m), (trays.TraySetCode, trays.CropName, trays.MinC, trays.MaxC));
        Assert.Equal([26.67m], (await ProgramAsync(nursery)).Select(stretch => stretch.Item3));

        // The day they are gone it may be cold.
        await SetAsync(nursery, 15m, today.PlusDays(6), today.PlusDays(9));
    }

    [Theory]
    [InlineData(-0.01, 0, 3, "setpointC")]
    [InlineData(60.01, 0, 3, "setpointC")]
    [InlineData(20, -1, 3, "from")]
    [InlineData(20, 3, 3, "to")]
    public async Task HandleAsync_OutsideWhatIsAllowed_IsRefusedByField(double setpoint, int from, int to, string field)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var refused = await Assert.ThrowsAsync<InvalidFields>(
            () => SetAsync(nursery, (decimal)setpoint, nursery.Today.PlusDays(from), nursery.Today.PlusDays(to)));

        Assert.Equal(field, Assert.Single(refused.Errors).Field);
    }

    [Fact]
    public async Task HandleAsync_Staff_MayNot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        await Assert.ThrowsAsync<NotAllowed>(() => nursery.Get<SetSetpoint>().HandleAsync(
            new SetSetpointRequest("Z80", 20m, nursery.Today, null), nursery.As(Role.Staff)));
    }

    [Fact]
    public async Task ShowZone_PepperAndTomato_AcceptTheNarrowerBand()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato) = (await nursery.PlanAsync(nursery.Pepper), await nursery.PlanAsync(nursery.Tomato));
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today, nursery.Today.PlusDays(6));
        await nursery.ReserveAsync(tomato, "G1", 3, nursery.Today, nursery.Today.PlusDays(6));

        var zone = await nursery.Get<ShowZone>().HandleAsync("Z80", null, 20, nursery.As(Role.Manager));

        Assert.Equal((18.33m, 35m), (zone.BandMinC, zone.BandMaxC));
        Assert.Equal([pepper.TraySetCode, tomato.TraySetCode], zone.Trays.Select(trays => trays.TraySetCode).Order(StringComparer.Ordinal));
    }

    private static Task SetAsync(TestNursery nursery, decimal setpoint, LocalDate from, LocalDate? to) =>
        nursery.Get<SetSetpoint>().HandleAsync(new SetSetpointRequest("Z80", setpoint, from, to), nursery.HeadGrower);

    private static async Task<IEnumerable<(LocalDate, LocalDate, decimal)>> ProgramAsync(TestNursery nursery) =>
        (await nursery.Get<ShowZone>().HandleAsync("Z80", null, 20, nursery.HeadGrower)).Program
            .Select(stretch => (stretch.From, stretch.To, stretch.SetpointC));
}
