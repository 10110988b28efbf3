using CsCheck;
using Nursery.Agronomy.DegreeDays;
using Xunit;

namespace Nursery.Agronomy.Tests.DegreeDays;

public sealed class DegreeDayTests
{
    /// <summary>A year of a weather station by four methods: tests/reference/14a (S150, University of California Statewide IPM Program; lower 12,
    /// upper 33 °C), printed to 0.01.</summary>
    [Fact]
    public void Of_AYearOfAStation_AgreesByFourMethods()
    {
        var rows = Published.Rows("14a_degree_days_ucipm_ojai2016.csv");
        Assert.True(rows.Count > 240);
        foreach (var row in rows)
        {
            foreach (var (method, column) in new[]
            {
                (DegreeDayMethod.SingleSine, "dd_single_sine"), (DegreeDayMethod.DoubleSine, "dd_double_sine"),
                (DegreeDayMethod.SingleTriangle, "dd_single_triangle"), (DegreeDayMethod.DoubleTriangle, "dd_double_triangle"),
            })
            {
                var isDouble = method is DegreeDayMethod.DoubleSine or DegreeDayMethod.DoubleTriangle;
                if (isDouble && row["next_day_tmin_C"].Length == 0)
                {
                    continue;
                }

                var found = Of(row.Number("tmin_C"), row.Number("tmax_C"), isDouble ? row.Number("next_day_tmin_C") : null, 12, 33, method);
                Assert.Equal(row.Number(column), found, 0.006);
            }
        }
    }

    /// <summary>Single examples: tests/reference/14b rows 1–8 (S151), printed to 0.01; simple average row 10 (S156).</summary>
    [Theory]
    [InlineData(7, 14, DegreeDayMethod.SingleSine, 0.47)]
    [InlineData(7, 14, DegreeDayMethod.SingleTriangle, 0.29)]
    [InlineData(13, 14, DegreeDayMethod.SingleSine, 1.5)]
    [InlineData(13, 40, DegreeDayMethod.SingleSine, 12.94)]
    [InlineData(13, 40, DegreeDayMethod.SingleTriangle, 13.59)]
    [InlineData(7, 40, DegreeDayMethod.SingleTriangle, 11.14)]
    [InlineData(13, 19, DegreeDayMethod.SimpleAverage, 4)]
    [InlineData(5, 15, DegreeDayMethod.SimpleAverage, 0)]
    public void Of_SingleExamples_Agree(double low, double high, DegreeDayMethod method, double expected) =>
        Assert.Equal(expected, Of(low, high, null, 12, 33, method), 0.0051);

    /// <summary>Substitution before averaging: tests/reference/14b row 11 (S156).</summary>
    [Fact]
    public void Substituted_BeyondBothThresholds_IsHalfTheSpan() => Assert.Equal(
        10, DegreeDay.Substituted(new Temperature(4), new Temperature(38), new Temperature(10), new Temperature(30)), 1e-12);

    /// <summary>A second way: the day drawn as a curve and added up in ten thousand slices.</summary>
    [Fact]
    public void Of_AnyDay_IsTheAreaUnderItsCurve() => Gen
        .Select(Gen.Double[-5, 25], Gen.Double[0, 20], Gen.Double[0, 15], Gen.Double[1, 20])
        .Sample(
            (low, span, lower, width) =>
            {
                var (high, upper, sine, triangle) = (low + span, lower + width, 0d, 0d);
                const int slices = 4000;
                for (var slice = 0; slice < slices; slice++)
                {
                    var part = (slice + 0.5) / slices;
                    sine += Above(((low + high) / 2) - (span / 2 * Math.Cos(2 * Math.PI * part)));
                    triangle += Above(low + (span * (1 - Math.Abs((2 * part) - 1))));
                }

                Assert.Equal(sine / slices, Of(low, high, null, lower, upper, DegreeDayMethod.SingleSine), 0.002);
                Assert.Equal(triangle / slices, Of(low, high, null, lower, upper, DegreeDayMethod.SingleTriangle), 0.002);

                double Above(double celsius) => Math.Clamp(celsius, lower, upper) - lower;
            },
            iter: 200);

    [Theory]
    [InlineData(10, 5, 1, 20)]
    [InlineData(5, 10, 20, 20)]
    [InlineData(double.NaN, 10, 1, 20)]
    public void Of_OutOfRange_Throws(double low, double high, double lower, double upper) =>
        Assert.Throws<InputOutOfRange>(() => Of(low, high, null, lower, upper, DegreeDayMethod.SingleSine));

    private static double Of(double low, double high, double? next, double lower, double upper, DegreeDayMethod method) => DegreeDay.Of(
        Temperature.FromDegrees(low), Temperature.FromDegrees(high), next is { } value ? Temperature.FromDegrees(value) : null,
        Temperature.FromDegrees(lower), Temperature.FromDegrees(upper), method);
}
