using Nursery.Planning.Problems;
using Nursery.Planning.Repairs;
using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Repairs;

public sealed class ShortageTests
{
    private static readonly DateOnly Start = new(2026, 1, 5);

    /// <summary>Twelve trays need 12 spaces over the 14 days on the bench; ready on due alone. There are 9.</summary>
    private static readonly Problem TooMany = new(
        Start, 56, [new("house")], [new("heat", "house", BenchUse.Heat, 20, 60, 99), new("warm", "house", BenchUse.Warm, 9, 60, 99)],
        [new("a", "heat", 1, 20, [75])], 40, [new("crop", 70, 75, 80, [new(75, 0.25)], 14)],
        [.. Enumerable.Range(1, 4).Select(number => Batch($"b{number}"))]);

    [Fact]
    public void Of_TooFewWarmSpaces_ProvesHowManyTraysAreTooMany()
    {
        var proof = ShortageProof.Of(TooMany)[0];

        Assert.Equal((Resource.WarmBenches, 4, 5), (proof.Resource, proof.FirstWeek, proof.LastWeek));
        Assert.Equal((12, 9, 3), (proof.SpacesNeeded, proof.SpacesThere, proof.TraysTooMany));
        Assert.Equal(
            "Weeks 4 to 5: warm benches are short. The batches due then need at least 12 spaces on an average day, you have 9; at least 3 trays cannot be on time.",
            proof.Sentence);
    }

    [Fact]
    public void Of_EnoughOfEverything_ProvesNothing() => Assert.Empty(ShortageProof.Of(TooMany with { Batches = [.. TooMany.Batches.Take(3)] }));

    [Theory]
    [InlineData("S", 1)]
    [InlineData("S", 2)]
    [InlineData("M", 2)]
    public void Of_SeasonsPlannedOnTime_ProvesNothingAgainstThem(string size, int seed)
    {
        // A plan that is out by fewer trays than a proof says would show that the proof is wrong.
        var problem = InventedNursery.Make(size, seed, 1.40);
        var plan = Planner.Plan(problem, new Effort(10_000)).Plan;
        var onTime = plan.Batches.Where(placed => placed.ReadyOn <= problem.Batches.Single(batch => batch.Id == placed.Id).LastOnTime).Select(placed => placed.Id).ToHashSet();
        var left = problem.Batches.Where(batch => !onTime.Contains(batch.Id)).Sum(batch => batch.Trays);

        foreach (var proof in ShortageProof.Of(problem))
        {
            Assert.True(left >= proof.TraysTooMany, $"{proof.Sentence} Yet only {left} are not.");
        }

        Assert.Empty(ShortageProof.Of(problem with { Batches = [.. problem.Batches.Where(batch => onTime.Contains(batch.Id))] }));
    }

    [Fact]
    public void Repairs_AreEachConfirmedByAPlan()
    {
        var plan = Planner.Plan(TooMany, new Effort(500)).Plan;
        Assert.Equal(3, plan.Unplaced.Sum(unplaced => unplaced.Trays));

        var ways = Repairing.Of(TooMany, plan, rentSpaceWeek: 25, new Effort(500));

        Assert.StartsWith("Weeks 4 to 5: warm benches are short.", ways.Sentence, StringComparison.Ordinal);
        Assert.Contains(ways.Repairs, repair => repair.Sentence.StartsWith("Rent 3 warm spaces", StringComparison.Ordinal) && repair.Price >= 3 * 25);
        foreach (var repair in ways.Repairs)
        {
            Assert.Empty(PlanValidator.Check(repair.Planned.Checked.Usable, repair.Planned.Plan));
            Assert.Equal(3 - repair.TraysMore, repair.Planned.Plan.Unplaced.Sum(unplaced => unplaced.Trays));
        }
    }

    [Fact]
    public void Repairs_NothingProved_SaysSo() =>
        Assert.StartsWith("I found no space", new WayOut([], []).Sentence, StringComparison.Ordinal);

    private static Batch Batch(string id) => new(id, "crop", 3, Start.AddDays(42), Earliest: Start.AddDays(42), Latest: Start.AddDays(42), LastLate: Start.AddDays(42));
}
