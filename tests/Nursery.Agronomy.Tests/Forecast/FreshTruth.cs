using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Sowing;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>A third kind of batch, written down before any of its scores were seen, and nothing was chosen by it. Seed soaks for a while
/// that warmth does not shorten, then emerges as Weibull in hours of warmth; nights are colder than days while the forecast knows their mean, by
/// a thermometer with an error; a third of the lots hold old seed that is weaker and slower; cells at a tray's edge are slower and fail
/// more; neighbors of a dead cell die too. Labels flatter the seed, now and then by much.</summary>
internal sealed class FreshTruth
{
    private const int Columns = 12;
    private const int Rows = 6;
    private const double EdgeSlower = 1.15;
    private const double EdgeLoses = 0.94;

    private readonly Random _random;
    private readonly CropEmergence _crop;
    private readonly double[] _up;
    private readonly double _label;
    private readonly List<(double Day, Temperature Temperature)> _said = [];
    private readonly List<double> _hours = [];
    private readonly List<(int Day, CountKind What, int Value, int Cells)> _counts = [];

    public FreshTruth(int seed)
    {
        _random = new Random(900_000 + seed);
        _crop = EmergenceDefaults.All[_random.Next(EmergenceDefaults.All.Count)];
        SeedsPerCell = 1 + _random.Next(3);
        Trays = 1 + _random.Next(6);
        _label = 0.75 + (0.22 * _random.NextDouble());
        var lot = Math.Clamp(_label - (0.07 * _random.NextDouble()) - Math.Abs(Normal.Sample(_random, 0, 0.03)), 0.3, 0.97);
        lot *= _random.NextDouble() < 0.05 ? 0.4 + (0.4 * _random.NextDouble()) : 1;
        Weather();
        _up = [.. Seeds(lot)];
        var sorted = _up.Where(double.IsFinite).Order().ToList();
        Half = sorted.Count == 0 ? 1 : sorted[sorted.Count / 2];
        Count();
    }

    public int SeedsPerCell { get; }

    public int Trays { get; }

    public double Half { get; }

    public string Class => _crop.Class.ToString();

    public double FinalFraction => _up.Count(double.IsFinite) / (double)_up.Length;

    public int FinalStand => Enumerable.Range(0, Cells).Count(cell => IsUp(cell, double.MaxValue));

    private int Cells => Trays * Columns * Rows;

    /// <summary>As the product would ask: label, the zone's daily reading, what was counted.</summary>
    public ForecastQuestion Question(double asOf) => new(
        _crop.Rate, _crop.Curve, Cells, SeedsPerCell, SeedPrior.Of(new Fraction(_label), new Fraction(1)), new TemperatureRecord(_said),
        [.. _counts.Where(count => count.Day <= asOf).Select(count => new EmergenceCount(count.Day, count.What, count.Value, count.Cells))], asOf, 1);

    private void Weather()
    {
        var (mean, swing) = (Math.Min(_crop.Rate.Optimum.C, 29) - 1 - (6 * _random.NextDouble()), 2 + (3 * _random.NextDouble()));
        var thermometer = Normal.Sample(_random, 0, 0.8);
        for (var day = 0; day < 120; day++)
        {
            var today = mean + Normal.Sample(_random, 0, 1);
            _said.Add((day, Temperature.FromDegrees(today + thermometer)));
            _hours.AddRange(Enumerable.Range(0, 24).Select(hour => today - (swing * Math.Cos(2 * Math.PI * (hour - 3) / 24))));
        }
    }

    private IEnumerable<double> Seeds(double lot)
    {
        var half = 1 / Math.Max(0.01, _crop.Rate.RateAt(_said.Average(step => step.Temperature.C)));
        var soak = half * (0.15 + (0.2 * _random.NextDouble()));
        var pace = Math.Exp(Normal.Sample(_random, 0, 0.2)) * (1 - (soak / half));
        var shape = 2 + (2.5 * _random.NextDouble());
        var weak = _random.NextDouble() < 1d / 3 ? 0.1 + (0.3 * _random.NextDouble()) : 0;
        for (var tray = 0; tray < Trays; tray++)
        {
            var chance = lot * Math.Exp(Normal.Sample(_random, 0, 0.03));
            for (var cell = 0; cell < Columns * Rows; cell++)
            {
                var isEdge = cell % Columns is 0 or Columns - 1 || cell / Columns is 0 or Rows - 1;
                for (var seed = 0; seed < SeedsPerCell; seed++)
                {
                    var isWeak = _random.NextDouble() < weak;
                    var lives = _random.NextDouble() < Math.Min(0.995, chance) * (isEdge ? EdgeLoses : 1) * (isWeak ? 0.85 : 1);
                    var drawn = Math.Pow(-Math.Log(_random.NextDouble()) / Math.Log(2), 1 / shape);
                    var need = drawn * pace * (isEdge ? EdgeSlower : 1) * (isWeak ? 1.5 : 1);
                    yield return lives ? soak + DaysOf(need, soak) : double.PositiveInfinity;
                }
            }
        }
    }

    /// <summary>Days after soaking until a need of warmth is met, hour by hour; a seed that waits for half a season does not come.</summary>
    private double DaysOf(double need, double soak)
    {
        var sum = 0d;
        for (var hour = (int)(24 * soak); hour < _hours.Count; hour++)
        {
            sum += _crop.Rate.RateAt(Math.Clamp(_hours[hour], 0, 50)) / 24;
            if (sum >= need)
            {
                return ((hour + 1) / 24d) - soak;
            }
        }

        return double.PositiveInfinity;
    }

    private bool IsUp(int cell, double day) => Enumerable.Range(cell * SeedsPerCell, SeedsPerCell).Any(seed => _up[seed] <= day);

    private void Count()
    {
        var dying = _random.NextDouble() < 0.1 ? _random.Next(Cells) : -1;
        var next = (int)Math.Ceiling((0.5 + (0.4 * _random.NextDouble())) * Half);
        for (var day = next; day < 110; day += 1 + _random.Next(3))
        {
            // Whoever comes counts in their own way; a sample is the tray at hand.
            var what = (CountKind)_random.Next(3);
            var cells = _random.NextDouble() < 0.35 ? Columns * Rows : Cells;
            var dead = dying >= 0 ? Enumerable.Range(dying, Math.Min(Cells - dying, Math.Max(0, (int)(2 * (day - Half))))).ToHashSet() : [];
            var alive = Enumerable.Range(0, cells).Where(cell => !dead.Contains(cell)).ToList();
            var up = what == CountKind.Seedlings
                ? alive.Sum(cell => Enumerable.Range(cell * SeedsPerCell, SeedsPerCell).Count(seed => _up[seed] <= day))
                : alive.Count(cell => IsUp(cell, day));
            var (value, most) = (what == CountKind.Blanks ? cells - up : up, what == CountKind.Seedlings ? cells * SeedsPerCell : cells);
            value += (int)Math.Round(Normal.Sample(_random, 0, 0.3 + (0.01 * value)));
            _counts.Add((day, what, Math.Clamp(value, 0, most), cells));
        }
    }
}
