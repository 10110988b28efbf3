using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Sowing;
using Nursery.Past;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>What the product would be asked of the batches of an invented season, beside the truth that is kept with it.</summary>
internal sealed class PastForecasts
{
    private readonly PastSeason _season;
    private readonly Dictionary<string, PastLot> _lots;
    private readonly Dictionary<int, Past.BatchTruth> _truths;
    private readonly Dictionary<string, CurveTruth> _curves;
    private readonly ILookup<int, PastEntry> _entries;
    private readonly Dictionary<int, double?> _found = [];

    public PastForecasts(ulong seed)
    {
        _season = SeasonMaker.Make(PastGround.Nursery, seed);
        _lots = _season.Lots.ToDictionary(lot => lot.Code);
        _truths = _season.Truth.Batches.ToDictionary(truth => truth.Batch);
        _curves = _season.Truth.Curves.ToDictionary(curve => curve.Variety);
        _entries = _season.Entries.Where(entry => entry.Batch is not null).ToLookup(entry => entry.Batch!.Value);
    }

    public IEnumerable<PastBatch> All => _season.Batches;

    public Past.BatchTruth Truth(PastBatch batch) => _truths[batch.Number];

    /// <summary>Batches whose emergence is over: before that nobody knows what will have come up.</summary>
    public IEnumerable<PastBatch> Finished => _season.Batches.Where(batch => _truths[batch.Number].MedianDay > 0 && batch.SowOn + (3 * MedianDay(batch)) < 0);

    public double MedianDay(PastBatch batch) => _truths[batch.Number].MedianDay;

    public double FinalFraction(PastBatch batch) => _truths[batch.Number].FinalFraction;

    public string Kind(PastBatch batch) => _lots[batch.Lot].IsBad ? "bad lot" : batch.Zone == _season.Truth.ColdZone ? "cold zone" : PastGround.Names[batch.Crop];

    /// <summary>With the usual prior of the label, or with what the season's own finished batches had taught by that day.</summary>
    public ForecastQuestion Question(PastBatch batch, double asOf, bool learnt = false)
    {
        var crop = EmergenceDefaults.Find(PastGround.Names[batch.Crop])!;
        var label = Fraction.FromPercent(_lots[batch.Lot].LabelPercent);
        var plain = new ForecastQuestion(
            crop.Rate, crop.Curve, batch.Trays * batch.CellsPerTray, batch.SeedsPerCell, SeedPrior.Of(label, new Fraction(1)), Temperatures(batch), Counts(batch), asOf, 1);
        if (!learnt)
        {
            return plain;
        }

        var known = Finished.Where(other => OverOn(other) < batch.SowOn + asOf && Found(other) is not null).ToList();
        var lots = known.GroupBy(other => other.Lot).Where(lot => lot.Key != batch.Lot)
            .Select(lot => (Fraction.FromPercent(_lots[lot.Key].LabelPercent), new Fraction(lot.Average(other => Found(other)!.Value)))).ToList();
        var (points, size) = SeedRecord.House(lots, SeedPrior.UsualHousePoints, SeedPrior.UsualSize);
        var own = known.Where(other => other.Lot == batch.Lot)
            .Select(other => ((long)other.Trays * other.CellsPerTray * other.SeedsPerCell, new Fraction(Found(other)!.Value))).ToList();
        return plain with { Prior = SeedRecord.Lot(SeedPrior.Of(label, new Fraction(1), points, size), own) };
    }

    /// <summary>When nobody waits for seedlings any more.</summary>
    private double OverOn(PastBatch batch) => batch.SowOn + (3 * MedianDay(batch));

    /// <summary>Share of the seed that came up as the forecast sees it, all counts being in and its label forgotten; null where too few trays were counted.</summary>
    internal double? Found(PastBatch batch)
    {
        if (!_found.TryGetValue(batch.Number, out var found))
        {
            found = Counts(batch).Any(count => count.Cells == batch.Trays * batch.CellsPerTray)
                ? EmergenceForecast.Of(Question(batch, 3 * MedianDay(batch)) with { Prior = new BetaShape(2.5, 1) }).FinalFraction.Median
                : null;
            _found[batch.Number] = found;
        }

        return found;
    }

    private TemperatureRecord Temperatures(PastBatch batch)
    {
        var zone = PastGround.Zone(batch.Zone);
        List<(double, Temperature)> steps = [(0, Temperature.FromDegrees(zone.ReadsC!.Value))];
        if (OffHeat(batch) is { } day)
        {
            steps.Add((day, Temperature.FromDegrees(Outside(batch))));
        }

        return new TemperatureRecord(steps);
    }

    private List<EmergenceCount> Counts(PastBatch batch) =>
    [
        .. _entries[batch.Number].Where(entry => entry.Work is PastWork.CountSeedlings or PastWork.CountBlanks).Select(entry => new EmergenceCount(
            entry.Day - batch.SowOn, entry.Work == PastWork.CountBlanks ? CountKind.Blanks : CountKind.Seedlings, entry.Value,
            (entry.Trays ?? batch.Trays) * batch.CellsPerTray)),
    ];

    /// <summary>The batch's true curve, by true days at the optimum.</summary>
    public Func<double, double> Curve(PastBatch batch) => Curve(_curves[batch.Variety]);

    private static Func<double, double> Curve(CurveTruth curve) => progress => progress <= 0 ? 0 : curve.IsGompertz
        ? Math.Exp(-Math.Exp(-(progress - curve.Mode) / curve.Scale))
        : (curve.QuickShare * Normal.CDF(0, 0.12, Math.Log(progress / curve.QuickMedian)))
            + ((1 - curve.QuickShare) * Normal.CDF(0, 0.22, Math.Log(progress / curve.SlowMedian)));

    /// <summary>What someone believes who knows how seasons are made and the true temperatures, but not what was drawn: two curves in five
    /// Gompertz, the others two populations; medians 0.75 to 1.1 of the crop's days.</summary>
    public ForecastBeliefs Generator(PastBatch batch)
    {
        var crop = PastGround.Nursery.Crops.Single(crop => crop.Code == batch.Crop);
        var middle = 0.925 * crop.DaysToEmergence;
        var gompertz = new[] { 0.09, 0.12, 0.15 }.Select(scale => (
            Curve(new CurveTruth("", true, 0, 0, 0, middle - (0.3665 * scale * middle), scale * middle)), 0.4 / 3));
        var twice = from quick in new[] { 0.64, 0.725, 0.81 }
                    from slow in new[] { 1.39, 1.475, 1.56 }
                    select (Curve(new CurveTruth("", false, quick, 0.92 * middle, slow * middle, 0, 0)), 0.6 / 9);
        return ForecastOracles.OfTheGenerator([.. gompertz, .. twice], 0.109, day => ProgressAt(batch, day));
    }

    /// <summary>True progress at the end of a day: the true temperature of every day, and the generator's own rate (a beta function).</summary>
    public double ProgressAt(PastBatch batch, double day)
    {
        var crop = PastGround.Nursery.Crops.Single(crop => crop.Code == batch.Crop);
        var sum = 0d;
        for (var passed = 0; passed < day; passed++)
        {
            var celsius = OffHeat(batch) <= passed ? Outside(batch) : _season.Truth.MediaC[batch.Zone][Math.Clamp(batch.SowOn + passed - _season.Truth.FirstDay, 0, -_season.Truth.FirstDay)];
            sum += RateAt(crop, celsius);
        }

        return sum;
    }

    /// <summary>Chance of a seed in the trays of the batch.</summary>
    public double Chance(PastBatch batch)
    {
        var crop = PastGround.Nursery.Crops.Single(crop => crop.Code == batch.Crop);
        var rate = RateAt(crop, _truths[batch.Number].MeanHeatC);
        var viability = _lots[batch.Lot].Viability * (1 - (0.4 * Math.Max(0, 0.6 - rate)));
        return _truths[batch.Number].TrayEffects.Average(effect => Math.Min(0.995, viability * effect));
    }

    private static double RateAt(PastCrop crop, double celsius)
    {
        var (low, best, high) = (crop.MinC - 4, crop.OptimumC, crop.MaxC + 6);
        return celsius <= low || celsius >= high ? 0 : (high - celsius) / (high - best) * Math.Pow((celsius - low) / (best - low), (best - low) / (high - best));
    }

    private int? OffHeat(PastBatch batch) => _entries[batch.Number].FirstOrDefault(entry => entry.Work == PastWork.MoveOffHeat)?.Day - batch.SowOn;

    private static double Outside(PastBatch batch) => batch.Crop is "LE" or "CA" ? 16 : 20;
}
