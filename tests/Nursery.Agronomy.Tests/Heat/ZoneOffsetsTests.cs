using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Heat;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Heat;

public sealed class ZoneOffsetsTests(ITestOutputHelper output)
{
    private const double Usual = (double)MediaOffset.DefaultCelsius;

    private static readonly CropEmergence Tomato = EmergenceDefaults.Find("Tomato")!;

    [Fact]
    public void Learn_Nothing_IsNothing() => Assert.Empty(ZoneOffsets.Learn([]));

    /// <summary>One batch whose speed is certain moves the zone by shrinkage: worked by hand. ln r is straight enough over a degree.</summary>
    [Fact]
    public void Learn_OneBatch_ShrinksTowardsTheUsualOffset()
    {
        var slower = Math.Log(Rate(24 + Usual) / Rate(23 + Usual));
        var learnt = Assert.Single(ZoneOffsets.Learn([Batch("Z1", "Tomato", "V1", Tomato.Rate, 24, slower, 1e-3)]));

        // Spread of what is not the zone: nursery 0.15, crop 0.12, crop on zone 0.09, variety 0.20, lot 0.15; of the zone 5/3 °C × slope.
        var others = (0.15 * 0.15) + (0.12 * 0.12) + (0.09 * 0.09) + (0.20 * 0.20) + (0.15 * 0.15);
        var zone = Math.Pow(5 / 3d * slower, 2);
        Assert.Equal(Usual - (zone / (zone + others)), learnt.Celsius.Median, 0.05);
        Assert.False(learnt.IsKnown);
    }

    /// <summary>A variety that is as slow on every zone says nothing of one of them; one that is slow on a single zone does.</summary>
    [Fact]
    public void Learn_SlowVarietyAndColdZone_AreToldApart()
    {
        List<ZoneBatch> batches = [];
        for (var number = 0; number < 8; number++)
        {
            var zone = number % 2 == 0 ? "Z1" : "Z2";
            batches.Add(Batch(zone, "Tomato", "slow", Tomato.Rate, 24, 0.4, 0.05));
            batches.Add(Batch(zone, "Tomato", $"V{number}", Tomato.Rate, 24, 0, 0.05));
        }

        var same = ZoneOffsets.Learn(batches);
        Assert.Equal(same[0].Celsius.Median, same[1].Celsius.Median, 0.15);

        var cold = ZoneOffsets.Learn(batches.Select(batch => batch.Zone == "Z2" ? batch with { LogSlower = batch.LogSlower + 0.3 } : batch));
        Assert.True(cold[1].Celsius.Median < cold[0].Celsius.Median - 1, $"{cold[1]} is not colder than {cold[0]}");
    }

    /// <summary>Eight crops whose published rates say how much longer each needs at 24 − 4 °C than at the usual offset.</summary>
    [Fact]
    public void Learn_ManyCropsOnAColdZone_FindWhatItIsOffBy()
    {
        var crops = new[] { "Tomato", "Pepper", "Cabbage", "Onion", "Beet", "Cucumber", "Carrot", "Eggplant" }.Select(name => EmergenceDefaults.Find(name)!).ToList();
        var random = new Random(7);
        var batches = crops.SelectMany(crop => Enumerable.Range(0, 10).Select(number => number % 2 == 0
            ? Batch("Z1", crop.Name, $"V{number % 5}", crop.Rate, 24, Normal.Sample(random, 0, 0.1), 0.05)
            : Batch("Z2", crop.Name, $"V{number % 5}", crop.Rate, 24, Math.Log(At(crop, 24 + Usual) / At(crop, 20)) + Normal.Sample(random, 0, 0.1), 0.05)));

        var learnt = ZoneOffsets.Learn(batches);

        Assert.InRange(-4d, learnt[1].Celsius.Low, learnt[1].Celsius.High);
        Assert.InRange(Usual, learnt[0].Celsius.Low, learnt[0].Celsius.High);
        Assert.True(learnt[1].Celsius.High < Usual, learnt[1].ToString());
        Assert.True(learnt[1].IsKnown);
    }

    /// <summary>Invented nurseries of six zones whose truth is drawn as the model says: nine in ten intervals hold it.</summary>
    [Fact]
    public void Intervals_OfSimulatedZones_HoldNineInTen()
    {
        var (within, all, error, naive) = (0, 0, 0d, 0d);
        for (var seed = 0; seed < 60; seed++)
        {
            var (batches, truth) = Nursery(seed);
            foreach (var zone in ZoneOffsets.Learn(batches))
            {
                all++;
                within += truth[zone.Zone] >= zone.Celsius.Low && truth[zone.Zone] <= zone.Celsius.High ? 1 : 0;
                error += Math.Abs(truth[zone.Zone] - zone.Celsius.Median);
                naive += Math.Abs(truth[zone.Zone] - Usual);
            }
        }

        output.WriteLine(FormattableString.Invariant($"{all} zones, within {within / (double)all:P1}, mean error {error / all:0.00} °C, without learning {naive / all:0.00} °C"));
        Assert.InRange(within / (double)all, 0.85, 0.95);
        Assert.True(error < 0.7 * naive);
    }

    [Theory]
    [InlineData(0, 0.1, 0)]
    [InlineData(5, 0, 0)]
    [InlineData(5, 0.1, 4)]
    public void Learn_OutOfRange_Throws(double days, double error, double slower) => Assert.Throws<InputOutOfRange>(
        () => ZoneOffsets.Learn([Batch("Z", "Tomato", "V", Tomato.Rate, 24, slower, error) with { Days = days }]));

    private static double Rate(double celsius) => Tomato.Rate.RateAt(Temperature.FromDegrees(celsius));

    private static ZoneBatch Batch(string zone, string crop, string variety, RateModel rate, double setpoint, double slower, double error) =>
        new(zone, crop, variety, rate, [(0, Temperature.FromDegrees(setpoint))], 8, slower, error);

    private static (List<ZoneBatch> Batches, Dictionary<string, double> Truth) Nursery(int seed)
    {
        var random = new Random(seed);
        var truth = Enumerable.Range(1, 6).ToDictionary(number => $"Z{number}", _ => Normal.Sample(random, Usual, ZoneOffsets.BetweenZones));
        var setpoints = truth.Keys.ToDictionary(zone => zone, _ => 18 + (8 * random.NextDouble()));
        var drawn = new Dictionary<string, double>();
        double Effect(string name, double spread) => drawn.TryGetValue(name, out var known) ? known : drawn[name] = Normal.Sample(random, 0, spread);
        List<ZoneBatch> batches = [];
        while (batches.Count < 120)
        {
            var crop = EmergenceDefaults.All[random.Next(EmergenceDefaults.All.Count)];
            var zone = $"Z{1 + random.Next(6)}";
            var variety = $"{crop.Name} {random.Next(5)}";
            var setpoint = setpoints[zone];
            var (usual, here) = (At(crop, setpoint + Usual), At(crop, setpoint + truth[zone]));
            if (usual <= 0.01 || here <= 0.1 * usual)
            {
                continue;
            }

            var error = 0.03 + (0.1 * random.NextDouble());
            var slower = Math.Log(usual / here) + Effect("", 0.15) + Effect(crop.Name, 0.12) + Effect(crop.Name + zone, 0.09) + Effect(variety, 0.20)
                + Normal.Sample(random, 0, 0.15) + Normal.Sample(random, 0, error);
            batches.Add(Batch(zone, crop.Name, variety, crop.Rate, setpoint, Math.Clamp(slower, -3, 3), error));
        }

        return (batches, truth);
    }

    private static double At(CropEmergence crop, double celsius) => crop.Rate.RateAt(Temperature.FromDegrees(celsius));
}
