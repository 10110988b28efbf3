using MathNet.Numerics.LinearAlgebra;
using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Heat;

/// <summary>Learns what every zone of a nursery is off by from the speed at which its batches came up. The nursery, zones, crops, crops on a
/// zone and varieties each have an effect of their own with a spread known beforehand: a slow variety is not taken for a cold zone when it is
/// slow elsewhere too, nor the other way round. Solved together as one normal model, the temperatures straightened about the solution.
/// Source of the method: crossed random effects, Gelman &amp; Hill, Data Analysis Using Regression and Multilevel/Hierarchical Models,
/// 2007, ch. 13; Gauss–Newton, Nocedal &amp; Wright, Numerical Optimization, 2nd ed. 2006, 10.3 (both from memory).</summary>
public static class ZoneOffsets
{
    /// <summary>Standard deviation between zones about the usual offset, °C: 3 °F (from memory).</summary>
    public const double BetweenZones = 3 * 5 / 9d;

    /// <summary>Standard deviation of ln thermal time by which all batches of a nursery differ from the tables: what counts as up, how deep
    /// and how moist it sows (from memory). It keeps what all zones share from being taken for their temperature.</summary>
    private const double OfNursery = 0.15;

    /// <summary>Standard deviations of ln thermal time: a crop's table, the table at a zone's temperature, a variety, a lot of it. Together
    /// the 0.15 and 0.25 of the forecast (from memory).</summary>
    private const double BetweenCrops = 0.12;
    private const double CropOnZone = 0.09;
    private const double BetweenVarieties = 0.20;
    private const double BetweenLots = 0.15;

    private const double Ninety = 1.6449;

    /// <summary>Slopes are taken over this much either side, °C: about the optimum the rate has a corner.</summary>
    private const double SlopeReach = 0.5;
    private const double Reach = 10;
    private const int Steps = 40;

    /// <summary>Every zone some batch speaks of, by name.</summary>
    /// <param name="batches">In any order; those whose crop does not grow at the usual offset say nothing.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static IReadOnlyList<ZoneOffset> Learn(IEnumerable<ZoneBatch> batches)
    {
        var spoke = new List<ZoneBatch>();
        foreach (var batch in batches)
        {
            batch.Check();
            if (batch.HasProgress)
            {
                spoke.Add(batch);
            }
        }

        if (spoke.Count == 0)
        {
            return [];
        }

        var effects = Effects(spoke);
        var solution = Vector<double>.Build.Dense(effects.Count);
        var known = effects.Values.OrderBy(effect => effect.Index).ToList();
        known.ForEach(effect => solution[effect.Index] = effect.Mean);
        var rows = spoke.ConvertAll(batch => Row(batch, effects));
        var best = Cost(rows, known, solution);
        var hessian = Straightened(rows, known, solution).Hessian;
        for (var step = 0; step < Steps; step++)
        {
            var (matrix, gradient) = Straightened(rows, known, solution);
            hessian = matrix;
            var move = matrix.Cholesky().Solve(gradient);
            var (next, cost) = Shorten(rows, known, solution, move, best);
            var done = best - cost < 1e-9;
            (solution, best) = (next, cost);
            if (done)
            {
                break;
            }
        }

        var spread = hessian.Cholesky().Solve(Matrix<double>.Build.DenseIdentity(effects.Count));
        return
        [
            .. spoke.GroupBy(batch => batch.Zone).OrderBy(zone => zone.Key, StringComparer.Ordinal).Select(zone =>
            {
                var index = effects[("zone", zone.Key)].Index;
                var half = Ninety * Math.Sqrt(spread[index, index]);
                return new ZoneOffset(zone.Key, zone.Count(), new Interval(solution[index], solution[index] - half, solution[index] + half));
            }),
        ];
    }

    private static Dictionary<(string Kind, string Name), Effect> Effects(List<ZoneBatch> batches)
    {
        var effects = new Dictionary<(string, string), Effect>();
        void Add(string kind, string name, double mean, double spread) => effects.TryAdd((kind, name), new Effect(effects.Count, mean, spread));
        foreach (var batch in batches)
        {
            Add("nursery", "", 0, OfNursery);
            Add("zone", batch.Zone, (double)MediaOffset.DefaultCelsius, BetweenZones);
            Add("crop", batch.Crop, 0, BetweenCrops);
            Add("crop on zone", $"{batch.Crop}\n{batch.Zone}", 0, CropOnZone);
            Add("variety", $"{batch.Crop}\n{batch.Variety}", 0, BetweenVarieties);
        }

        return effects;
    }

    private static Observation Row(ZoneBatch batch, Dictionary<(string Kind, string Name), Effect> effects) => new(
        batch,
        effects[("zone", batch.Zone)].Index,
        [
            effects[("nursery", "")].Index, effects[("crop", batch.Crop)].Index, effects[("crop on zone", $"{batch.Crop}\n{batch.Zone}")].Index,
            effects[("variety", $"{batch.Crop}\n{batch.Variety}")].Index,
        ],
        1 / ((batch.Error * batch.Error) + (BetweenLots * BetweenLots)));

    private static (Matrix<double> Hessian, Vector<double> Gradient) Straightened(
        List<Observation> rows, List<Effect> effects, Vector<double> at)
    {
        var hessian = Matrix<double>.Build.Dense(at.Count, at.Count);
        var gradient = Vector<double>.Build.Dense(at.Count);
        foreach (var effect in effects)
        {
            var weight = 1 / (effect.Spread * effect.Spread);
            hessian[effect.Index, effect.Index] += weight;
            gradient[effect.Index] += weight * (effect.Mean - at[effect.Index]);
        }

        foreach (var row in rows)
        {
            var offset = at[row.Zone];
            var slope = (row.Batch.LogSlowerAt(offset + SlopeReach) - row.Batch.LogSlowerAt(offset - SlopeReach)) / (2 * SlopeReach);
            (int Index, double Slope)[] slopes = [(row.Zone, slope), .. row.Others.Select(index => (index, 1d))];
            var miss = row.Miss(at);
            foreach (var (left, leftSlope) in slopes)
            {
                gradient[left] += row.Weight * leftSlope * miss;
                foreach (var (right, rightSlope) in slopes)
                {
                    hessian[left, right] += row.Weight * leftSlope * rightSlope;
                }
            }
        }

        return (hessian, gradient);
    }

    /// <summary>Half the move, and half again, until it is no worse.</summary>
    private static (Vector<double> At, double Cost) Shorten(
        List<Observation> rows, List<Effect> effects, Vector<double> from, Vector<double> move, double cost)
    {
        for (var share = 1d; share > 1e-3; share /= 2)
        {
            var to = from + (share * move);
            foreach (var row in rows)
            {
                to[row.Zone] = Math.Clamp(to[row.Zone], -Reach, Reach);
            }

            if (Cost(rows, effects, to) is var there && there <= cost)
            {
                return (to, there);
            }
        }

        return (from, cost);
    }

    private static double Cost(List<Observation> rows, List<Effect> effects, Vector<double> at) =>
        (rows.Sum(row => row.Weight * Math.Pow(row.Miss(at), 2)) + effects.Sum(effect => Math.Pow((at[effect.Index] - effect.Mean) / effect.Spread, 2))) / 2;

    private sealed record Effect(int Index, double Mean, double Spread);

    private sealed record Observation(ZoneBatch Batch, int Zone, int[] Others, double Weight)
    {
        public double Miss(Vector<double> at) => Batch.LogSlower - Batch.LogSlowerAt(at[Zone]) - Others.Sum(index => at[index]);
    }
}
