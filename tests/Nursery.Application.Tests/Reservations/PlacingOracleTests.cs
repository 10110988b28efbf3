using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

/// <summary>Random reserving, moving, swapping, taking back, giving up and days that pass, against sets of (bench, space, day):
/// never two on one space, never beyond the bench, the past never changes, and every refusal has its reason.</summary>
public sealed class PlacingOracleTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const int Steps = 120;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public async Task Placing_AnyOrderOfChanges_AgreesWithTheOracle(int seed)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var season = new RandomSeason(nursery, new Random(seed));
        await season.PlanAsync();
        for (var step = 1; step <= Steps; step++)
        {
            var before = season.Oracle.Before(nursery.Today);
            var what = await season.StepAsync();
            var stored = await PlacedTrays.ReadAsync(nursery);
            Assert.True(stored.Equals(season.Oracle), $"seed {seed}, step {step}, {what}: {stored} stored, {season.Oracle} expected");
            Assert.True(stored.Beyond(season.Benches) == 0, $"seed {seed}, step {step}, {what}: beyond the bench");
            Assert.True(stored.Before(season.PastBefore).Equals(before.Before(season.PastBefore)), $"seed {seed}, step {step}, {what}: the past changed");
        }

        Assert.All(season.Done, kind => Assert.True(kind.Value > 0, $"seed {seed}: no {kind.Key} was done"));
    }
}
