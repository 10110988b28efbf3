using NodaTime;
using Nursery.Application.Outages;
using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Plans.Changes;

/// <summary>On Monday, 2 March 2026.</summary>
public sealed class PlanEventTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly LocalDate Today = new(2026, 3, 2);

    public static TheoryData<PlanEvent, string> Wrong => new()
    {
        { new SlippedBatch("XX-1", 0), "batch=XX-1 days=0" },
        { new SlippedBatch("XX-1", 61), "batch=XX-1 days=61" },
        { new BenchOut("roof", Today.PlusDays(-1), Today.PlusDays(-1), new string('x', 201)), "bench=roof from=2026-03-01 to=2026-03-01 why=" + new string('x', 201) },
        { new BenchOut("W1", Today, Today.PlusDays(729)), "to=2028-02-29" },
        { new ZoneOut("roof", Today, Today), "zone=roof to=2026-03-02" },
        { new AddedOrder("roof", 0, Today), "variety=roof plants=0 readyOn=2026-03-02" },
        { new CancelledBatch("XX-1"), "batch=XX-1" },
        { new TriedSetpoints("Z80", []), "setpointsF=0 setpoints" },
        { new TriedSetpoints("roof", [31, double.NaN]), "zone=roof setpointsF=31 setpointsF=NaN" },
        { new RentedSpaces(PlaceKind.Hardening, 5001, Today, Today), "use=Hardening spaces=5001 to=2026-03-02" },
        { new MoreHardening(0), "more=0" },
        { new TriedPrices(), "kind=prices" },
        { new TriedPrices(DayLate: -1, Split: 1_000_001), "dayLate=-1 split=1000001" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public async Task Start_FieldOfAChangeNotAllowed_IsNamedWithItsValue(PlanEvent change, string wrong)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => StartAsync(nursery, PlanAim.Try, change));

        Assert.Equal(wrong, string.Join(' ', refusal.Errors.Select(error => $"{error.Field.Replace("changes[0].", "", StringComparison.Ordinal)}={error.Value}")));
        Assert.All(refusal.Errors, error => Assert.NotEmpty(error.Allowed));
    }

    [Fact]
    public async Task Start_ChangesAndAimThatDoNotGoTogether_AreRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 1);

        Assert.Equal(["changes"], await FieldsAsync(PlanAim.Whole, new SlippedBatch(batch.Code, 2)));
        Assert.Equal(["changes"], await FieldsAsync(PlanAim.Try));
        Assert.Equal(["changes[0].kind", "changes[1].kind"], await FieldsAsync(PlanAim.Keep, new CancelledBatch(batch.Code), new MoreHardening(4)));
        Assert.Equal(["changes[1].batch"], await FieldsAsync(PlanAim.Keep, new SlippedBatch(batch.Code, 2), new SlippedBatch(batch.Code, 3)));
        Assert.Equal(["changes[1].from"], await FieldsAsync(PlanAim.Keep, new BenchOut("W1", Today, Today.PlusDays(3)), new BenchOut("W1", Today.PlusDays(2), Today.PlusDays(9))));
        await nursery.Get<TakeOutOfUse>().HandleAsync(new(null, "Z80", Today, Today.PlusDays(3)), nursery.HeadGrower);
        Assert.Equal(["changes[0].from"], await FieldsAsync(PlanAim.Keep, new ZoneOut("Z80", Today.PlusDays(1), Today.PlusDays(9))));
        Assert.Equal(["aim"], Fields(await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<StartPlan>().HandleAsync(
            new PlanRequest(Iterations: 1, Problem: """{"start":"2026-03-02","days":28,"houses":[],"benches":[],"zones":[],"hardeningSpaces":0,"crops":[],"batches":[]}""", Aim: PlanAim.Keep),
            nursery.HeadGrower))));

        async Task<IEnumerable<string>> FieldsAsync(PlanAim aim, params PlanEvent[] changes) =>
            Fields(await Assert.ThrowsAsync<InvalidFields>(() => StartAsync(nursery, aim, changes)));

        static IEnumerable<string> Fields(InvalidFields refusal) => refusal.Errors.Select(error => error.Field);
    }

    private static Task<PlanRun> StartAsync(TestNursery nursery, PlanAim aim, params PlanEvent[] changes) =>
        nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: 1, Aim: aim) { Changes = changes }, nursery.HeadGrower);
}
