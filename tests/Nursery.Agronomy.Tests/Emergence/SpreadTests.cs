using Nursery.Agronomy.Emergence;
using Xunit;

namespace Nursery.Agronomy.Tests.Emergence;

/// <summary>Which curve suits published daily counts: tests/reference/05a (S40). Fitted by the likelihood of the day each seed came.</summary>
public sealed class SpreadTests
{
    [Fact]
    public void Curves_OfPublishedDailyCounts_AreLogLogisticWithSigmaAboutAFifth()
    {
        var samples = Published.Rows("05a_germination_indices_gcdata.csv")
            .Select(row => Enumerable.Range(1, 14).Select(day => (int)row.Number($"Day{day:00}")).ToArray()).ToList();
        Assert.Equal(10, samples.Count);
        foreach (var counts in samples)
        {
            var (logistic, sigma) = Best(counts, SpreadFamily.LogLogistic);
            var (normal, _) = Best(counts, SpreadFamily.LogNormal);
            Assert.True(logistic > normal, $"log-normal suits {string.Join(' ', counts)} better");
            Assert.InRange(sigma, 0.12, 0.25);
        }
    }

    private static (double LogLikelihood, double Sigma) Best(int[] counts, SpreadFamily family)
    {
        var best = (LogLikelihood: double.NegativeInfinity, Sigma: 0d);
        for (var sigma = 0.05; sigma < 0.5; sigma += 0.005)
        {
            var curve = new EmergenceCurve(family, sigma);
            for (var half = 5d; half < 8; half += 0.02)
            {
                var sum = 0d;
                for (var day = 1; day <= counts.Length; day++)
                {
                    var share = curve.ShareAt(day / half).Value - curve.ShareAt((day - 1) / half).Value;
                    sum += counts[day - 1] == 0 ? 0 : counts[day - 1] * Math.Log(share);
                }

                best = sum > best.LogLikelihood ? (sum, sigma) : best;
            }
        }

        return best;
    }
}
