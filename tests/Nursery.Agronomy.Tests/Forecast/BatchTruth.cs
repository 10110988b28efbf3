using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>One invented batch with known truth, not made by our model: emergence of two populations or Gompertz, trays that differ, a lot of
/// its own speed, temperature that dips, counts of some days with miscounts, samples, blanks only, seedlings that die.</summary>
internal sealed class BatchTruth
{
    private readonly double[] _emergesAt;
    private readonly List<(double P, bool TwoPopulations)> _trays = [];
    private readonly Random _random;

    public BatchTruth(int seed)
    {
        _random = new Random(seed);
        Crop = EmergenceDefaults.All[_random.Next(EmergenceDefaults.All.Count)];
        SeedsPerCell = 1 + _random.Next(3);
        Trays = 1 + _random.Next(8);
        Prior = BetaShape.Of(new Fraction(0.55 + (0.4 * _random.NextDouble())), 12 + (40 * _random.NextDouble()));
        var final = Math.Clamp(Beta.Sample(_random, Prior.A, Prior.B), 0.02, 0.995);
        Half = HalfDay();
        _emergesAt = [.. Enumerable.Range(0, Trays).SelectMany(_ => Tray(final))];
        Temperatures = new TemperatureRecord(_steps);
    }

    public CropEmergence Crop { get; }

    public int SeedsPerCell { get; }

    public int Trays { get; }

    public int Cells => Trays * 72;

    public BetaShape Prior { get; }

    /// <summary>Day on which half were up at the lot's own speed.</summary>
    public double Half { get; }

    public TemperatureRecord Temperatures { get; }

    public double FinalFraction => _emergesAt.Count(double.IsFinite) / (double)_emergesAt.Length;

    public int FinalStand => Enumerable.Range(0, Cells).Count(cell => CellUp(cell, double.MaxValue));

    private List<(double Day, Temperature Temperature)> _steps = [];

    public ForecastQuestion Question(double asOf, bool withCounts = true) => new(
        Crop.Rate, Crop.Curve, Cells, SeedsPerCell, Prior, Temperatures, withCounts ? Counts(asOf) : [], asOf, 1);

    /// <summary>The true curve of the trays that are counted, by days ÷ days to half.</summary>
    public double CurveAt(double progress, int countedCells)
    {
        var trays = _trays.Take(Math.Max(1, countedCells / 72)).ToList();
        return progress <= 0 ? 0 : trays.Sum(tray => tray.P * ShareOf(tray.TwoPopulations, progress)) / trays.Sum(tray => tray.P);
    }

    /// <summary>Chance of a seed in the trays of the batch.</summary>
    public double Chance => _trays.Average(tray => tray.P);

    /// <summary>What someone would say who knows every tray's chance and curve, and what is up today without a miscount: mean and standard
    /// deviation of the final fraction.</summary>
    public (double Mean, double Sd) SeesEverySeed(double day)
    {
        var (mean, variance, perTray) = (0d, 0d, 72 * SeedsPerCell);
        for (var tray = 0; tray < Trays; tray++)
        {
            var up = _emergesAt.Skip(tray * perTray).Take(perTray).Count(at => at <= day);
            var (p, share) = (_trays[tray].P, ShareOf(_trays[tray].TwoPopulations, day / Half));
            var coming = p * (1 - share) / (1 - (p * share));
            mean += up + ((perTray - up) * coming);
            variance += (perTray - up) * coming * (1 - coming);
        }

        return (mean / _emergesAt.Length, Math.Sqrt(variance) / _emergesAt.Length);
    }

    public static double ShareOf(bool twoPopulations, double at) => twoPopulations
        ? (0.75 * Normal.CDF(-0.03, 0.12, Math.Log(at))) + (0.25 * Normal.CDF(0.25, 0.2, Math.Log(at)))
        : at < 0.2 ? 0 : Math.Exp(-Math.Log(2) * Math.Exp(-6 * (at - 1)));

    private double HalfDay()
    {
        var usual = (double)Math.Min(Crop.Rate.Optimum.Celsius, 30) - (5 * _random.NextDouble());
        _steps = [.. Enumerable.Range(0, 60).Select(day => (
            (double)day, Temperature.FromDegrees(usual + Normal.Sample(_random, 0, 0.7) - (_random.NextDouble() < 0.05 ? 5 : 0))))];
        return new TemperatureRecord(_steps).DayOf(Crop.Rate, Math.Exp(Normal.Sample(_random, 0, 0.25)))!.Value;
    }

    private IEnumerable<double> Tray(double final)
    {
        var logit = Math.Log(final / (1 - final)) + Normal.Sample(_random, 0, 0.2);
        var (p, late) = (1 / (1 + Math.Exp(-logit)), _random.NextDouble() < 0.5);
        _trays.Add((p, late));
        for (var seed = 0; seed < 72 * SeedsPerCell; seed++)
        {
            yield return _random.NextDouble() >= p
                ? double.PositiveInfinity
                : Half * (late ? TwoPopulations() : Gompertz());
        }
    }

    private double TwoPopulations() => _random.NextDouble() < 0.75
        ? Math.Exp(Normal.Sample(_random, -0.03, 0.12))
        : Math.Exp(Normal.Sample(_random, 0.25, 0.2));

    /// <summary>Gompertz with its median at 1: F = exp(−ln 2 · exp(−c (t − 1))).</summary>
    private double Gompertz() => Math.Max(0.2, 1 - (Math.Log(-Math.Log(_random.NextDouble()) / Math.Log(2)) / 6));

    private bool CellUp(int cell, double day) =>
        Enumerable.Range(cell * SeedsPerCell, SeedsPerCell).Any(seed => _emergesAt[seed] <= day);

    private List<EmergenceCount> Counts(double asOf)
    {
        var what = (CountKind)_random.Next(3);
        var cells = _random.NextDouble() < 0.3 ? Math.Min(Cells, 72) : Cells;
        var dies = _random.NextDouble() < 0.15 ? 0.005 : 0;
        var counts = new List<EmergenceCount>();
        for (var day = Math.Ceiling(0.6 * Half); day <= asOf; day++)
        {
            if (_random.NextDouble() < 0.3)
            {
                continue;
            }

            var up = what == CountKind.Seedlings
                ? _emergesAt.Take(cells * SeedsPerCell).Count(at => at <= day)
                : Enumerable.Range(0, cells).Count(cell => CellUp(cell, day));
            up = (int)(up * (1 - (dies * Math.Max(0, day - Half))));
            var most = what == CountKind.Seedlings ? cells * SeedsPerCell : cells;
            var said = Math.Clamp((what == CountKind.Blanks ? cells - up : up) + (_random.NextDouble() < 0.2 ? _random.Next(-1, 2) : 0), 0, most);
            counts.Add(new EmergenceCount(day, what, said, cells));
        }

        return counts;
    }
}
