using Nursery.Agronomy.Germination;
using Xunit;

namespace Nursery.Agronomy.Tests.Germination;

public sealed class ProportionIntervalTests
{
    /// <summary>Newcombe 1998, Table I, to four digits: tests/reference/13a (S141, from memory, recomputed).</summary>
    [Fact]
    public void Intervals_NewcombesTable_Agree()
    {
        var rows = Published.Rows("13a_proportion_intervals.csv");
        Assert.NotEmpty(rows);
        foreach (var row in rows)
        {
            var (x, n) = ((int)row.Number("x"), (int)row.Number("n"));
            var (low, high) = row["method"].StartsWith("Wilson", StringComparison.Ordinal) ? ProportionInterval.Wilson(x, n) : ProportionInterval.ClopperPearson(x, n);
            Assert.Equal(row.Number("lower"), low.Value, 5.1e-5);
            Assert.Equal(row.Number("upper"), high.Value, 5.1e-5);
        }
    }

    /// <summary>The formula of NIST 7.2.4.1 (tests/reference/13b row 1), written out.</summary>
    [Fact]
    public void Wilson_FormulaWrittenOut_Agrees()
    {
        const double z = 1.959963984540054;
        var (p, n) = (81 / 263d, 263d);
        var upper = (p + (z * z / (2 * n)) + (z * Math.Sqrt((p * (1 - p) / n) + (z * z / (4 * n * n))))) / (1 + (z * z / n));
        Assert.Equal(upper, ProportionInterval.Wilson(81, 263).High.Value, 1e-9);
    }

    /// <summary>Clopper and Pearson's definition: at the ends, as few or as many are seen with 2.5 % chance; summed one by one.</summary>
    [Theory]
    [InlineData(81, 263)]
    [InlineData(3, 20)]
    [InlineData(0, 20)]
    [InlineData(20, 20)]
    public void ClopperPearson_TailsSummed_AreOneInForty(int x, int n)
    {
        var (low, high) = ProportionInterval.ClopperPearson(x, n);
        if (x < n)
        {
            Assert.Equal(0.025, Tail(0, x, n, high.Value), 1e-6);
        }

        if (x > 0)
        {
            Assert.Equal(0.025, Tail(x, n, n, low.Value), 1e-6);
        }
    }

    /// <summary>Jeffreys: the mass of Beta(x + ½, n − x + ½) below and above, summed in slices.</summary>
    [Fact]
    public void Jeffreys_MassBetweenTheEnds_IsTheConfidence()
    {
        var (low, high) = ProportionInterval.Jeffreys(15, 20);
        var (inside, all) = (0d, 0d);
        for (var p = 5e-6; p < 1; p += 1e-5)
        {
            var density = Math.Pow(p, 14.5) * Math.Pow(1 - p, 4.5);
            all += density;
            inside += p > low.Value && p < high.Value ? density : 0;
        }

        Assert.Equal(0.95, inside / all, 1e-4);
        Assert.Equal((0, 1), (ProportionInterval.Jeffreys(0, 5).Low.Value, ProportionInterval.Jeffreys(5, 5).High.Value));
    }

    [Theory]
    [InlineData(-1, 5, 0.95)]
    [InlineData(6, 5, 0.95)]
    [InlineData(0, 0, 0.95)]
    [InlineData(1, 5, double.NaN)]
    public void Wilson_OutOfRange_Throws(int x, int n, double confidence) =>
        Assert.Throws<InputOutOfRange>(() => ProportionInterval.Wilson(x, n, confidence));

    private static double Tail(int from, int to, int n, double p)
    {
        var sum = 0d;
        for (var count = from; count <= to; count++)
        {
            sum += MathNet.Numerics.Distributions.Binomial.PMF(p, n, count);
        }

        return sum;
    }
}
