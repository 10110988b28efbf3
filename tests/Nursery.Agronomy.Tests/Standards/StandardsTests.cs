using Nursery.Agronomy.Standards;
using Xunit;

namespace Nursery.Agronomy.Tests.Standards;

public sealed class StandardsTests
{
    /// <summary>7 CFR 201.31: tests/reference/01a (S01), whole.</summary>
    [Fact]
    public void Minimum_EveryKind_IsTheTable()
    {
        var rows = Published.Rows("01a_fsa_min_germination.csv");
        Assert.Equal((68, 68), (rows.Count, GerminationMinimum.All.Count));
        Assert.All(rows, row => Assert.Equal(row.Number("min_germination_pct"), GerminationMinimum.Find(row["kind"].ToUpperInvariant())!.Minimum.Percent, 1e-12));
        Assert.Null(GerminationMinimum.Find("Teasel"));
    }

    /// <summary>7 CFR 201.55: tests/reference/01c (S02 read; 51–70 % S04 from memory): the limit itself is within, one point more is not.</summary>
    [Fact]
    public void ReplicateRange_EveryMean_IsTheTable()
    {
        foreach (var row in Published.Rows("01c_replicate_range_limits.csv"))
        {
            foreach (var mean in new[] { row.Number("mean_pct"), row.Number("mirror_pct") })
            {
                var limit = ReplicateRange.Of([mean, mean, mean, mean]);
                Assert.Equal((row.Number("max_range_4x100"), 0d, true), ((double)limit.Allowed!, limit.Range, limit.IsWithin));
                Assert.Equal(row["status"] == "memory", limit.Source.Contains("memory", StringComparison.Ordinal));
                Assert.Equal(row["max_range_2x100"].Length == 0 ? null : (int)row.Number("max_range_2x100"), ReplicateRange.Of([mean, mean]).Allowed);
            }
        }

        Assert.True(ReplicateRange.Of([84, 96, 90, 90]).IsWithin);
        Assert.False(ReplicateRange.Of([84, 97, 90, 90]).IsWithin);
        Assert.Null(ReplicateRange.Of([100, 100, 100, 100]).Allowed);
        Assert.Throws<InputOutOfRange>(() => ReplicateRange.Of([90, 90, 90]));
        Assert.Throws<InputOutOfRange>(() => ReplicateRange.Of([90, 101]));
    }

    /// <summary>A second way to the table: the range of four binomial counts that one test in forty exceeds, within a point of every printed
    /// limit (which were made with a normal curve); 90 %: 12 (tests/reference/13b row 8).</summary>
    [Fact]
    public void ChanceRange_FourTimesAHundred_IsNearThePrintedLimits()
    {
        foreach (var row in Published.Rows("01c_replicate_range_limits.csv"))
        {
            Assert.InRange(
                ChanceRange.Allowed(4, 100, Fraction.FromPercent(row.Number("mean_pct"))) - row.Number("max_range_4x100"), -1, 1);
        }

        Assert.Equal(0.025, ChanceRange.Exceeding(4, 100, new Fraction(0.9), 12).Value, 0.012);
    }

    [Fact]
    public void ChanceRange_OfTrays_AgreesWithSimulation()
    {
        var random = new Random(3);
        var over = 0;
        for (var run = 0; run < 20_000; run++)
        {
            var counts = Enumerable.Range(0, 5).Select(_ => MathNet.Numerics.Distributions.Binomial.Sample(random, 0.85, 72)).ToList();
            over += counts.Max() - counts.Min() > 10 ? 1 : 0;
        }

        Assert.Equal(over / 20_000d, ChanceRange.Exceeding(5, 72, new Fraction(0.85), 10).Value, 0.012);
    }
}
