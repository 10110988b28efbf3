using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.SeedAge;
using Nursery.Agronomy.Sowing;
using Nursery.Application.Crops;
using Nursery.Application.Germination;
using Nursery.Data;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Interval = Nursery.Agronomy.Interval;

namespace Nursery.Application.Computed;

/// <summary>The chance of a seed of any lot of the site, from labels and from all that was counted: loaded once, asked for thousands of
/// batches. Counts are of the last three years and made when emergence was over, which is from twice the crop's days to emergence
/// on. Counted batches are taken as sown at temperatures that suit them.</summary>
public sealed class SeedChances
{
    /// <summary>Germination where there is no lot (from memory; a cautious value for fresh vegetable seed).</summary>
    public const decimal GerminationWithoutLot = 0.80m;

    private const int YearsOfRecord = 3;
    private const string Page = "docs/agronomy/sowing.md";

    private readonly Units _units;
    private readonly ILookup<string, Record> _byCrop;
    private readonly ILookup<string, Record> _byLot;
    private readonly Dictionary<(string Crop, string? House, string? Lot), HouseRecord> _houses = [];

    private SeedChances(Units units, IReadOnlyCollection<Record> records)
    {
        _units = units;
        _byCrop = records.ToLookup(record => record.Batch.CropCode);
        _byLot = records.ToLookup(record => record.Lot.Code);
    }

    public static async Task<SeedChances> LoadAsync(NurseryDbContext database, Site site, LocalDate day, CancellationToken cancellation)
    {
        var batches = await CountedBatches.LoadRatesAsync(database, site.Id, day.PlusYears(-YearsOfRecord), day.PlusDays(1), cancellation);
        var lots = await database.SeedLots.AsNoTracking().ToDictionaryAsync(lot => lot.Code, cancellation);
        var days = await database.Crops.AsNoTracking().ToDictionaryAsync(crop => crop.Code, crop => crop.DaysToEmergence, cancellation);
        return new SeedChances(site.Units,
        [
            .. batches.Where(batch => batch.LotCode is not null
                    && batch.CountedOn >= batch.SownOn.PlusDays(2 * days[batch.CropCode]))
                .Select(batch => new Record(batch, lots[batch.LotCode!])),
        ]);
    }

    /// <summary>Whether the batch is one of those counted in the record of its lot.</summary>
    public bool Knows(SeedLot lot, Guid batch) => _byLot[lot.Code].Any(record => record.Batch.Id == batch);

    /// <summary>Null where nothing would come up at the temperature.</summary>
    public SeedChance? Of(SeedQuestion question)
    {
        var (crop, lot) = (question.Crop, question.Lot);
        var label = (double)(lot?.LabelGermination ?? GerminationWithoutLot);
        var aged = lot is null ? new Interval(label, label, label) : Aged(crop.Name, lot, question.Day);
        var house = HouseOf(crop.Code, question.HouseCode, lot?.Code);
        var normal = FindCropEmergence.Of(crop).Published?.Normal.At(question.Media) ?? new Fraction(1);
        if (SeedPrior.Find(new Fraction(aged.Median), new Fraction(1), house.Points, house.Size) is not { } expected)
        {
            return null;
        }

        List<Record> own = lot is null
            ? []
            : [.. _byLot[lot.Code].Where(record => record.Batch.SownOn >= lot.TestedOn && record.Batch.Id != question.Except)];
        var believed = SeedRecord.Lot(expected, [.. own.Select(record => ((long)record.Batch.Seeds, record.Found))]);
        return SeedPrior.At(believed, normal) is { } prior
            ? new SeedChance(prior, new Fraction(Math.Clamp(aged.Median + believed.Mean - expected.Mean, 0, 1)), house.Points, normal,
                HowOf(question, aged, expected, own, house, normal, prior))
            : null;
    }

    private static Interval Aged(string crop, SeedLot lot, LocalDate day) => lot.Form == SeedForm.Primed
        ? new Interval((double)lot.LabelGermination, (double)lot.LabelGermination, (double)lot.LabelGermination)
        : SeedStore.After(crop, new Fraction((double)lot.LabelGermination), Period.DaysBetween(lot.TestedOn, day));

    /// <summary>What cells of a house do against labels, and how little its lots differ in that, by all its lots but the one asked for: that
    /// one's own batches speak for it.</summary>
    private HouseRecord HouseOf(string crop, string? house, string? lot)
    {
        if (!_houses.TryGetValue((crop, house, lot), out var known))
        {
            var records = _byCrop[crop].Where(record => record.Lot.Code != lot && (house is null || record.Batch.HouseCode == house)).ToList();
            var (points, size) = SeedRecord.House(
                [.. records.GroupBy(record => record.Lot.Code).Select(group => (new Fraction(group.Average(record => record.Label)), Pooled(group)))],
                SeedPrior.UsualHousePoints, SeedPrior.UsualSize);
            known = _houses[(crop, house, lot)] = new HouseRecord(Math.Clamp(points, -60, 20), size, records.Count);
        }

        return known;
    }

    private static Fraction Pooled(IEnumerable<Record> records)
    {
        var seeds = records.Sum(record => record.Batch.Seeds);
        return new Fraction(records.Sum(record => record.Found.Value * record.Batch.Seeds) / seeds);
    }

    private How HowOf(
        SeedQuestion question, Interval aged, BetaShape expected, List<Record> own, HouseRecord house, Fraction normal, BetaShape prior)
    {
        var lot = question.Lot;
        var inputs = new List<HowInput>
        {
            lot is null
                ? HowInput.Of("germination", (double)GerminationWithoutLot * 100, "0", "%", "no lot yet, from memory")
                : HowInput.Of("germination on the label", (double)lot.LabelGermination * 100, "0.#", "%", $"label of lot {lot.Code}, tested {LocalDatePattern.Iso.Format(lot.TestedOn)}"),
        };
        if (lot is not null && aged.Median < aged.High)
        {
            inputs.Add(new HowInput("left after storage", Invariant($"{aged.Median * 100:0} ({aged.Low * 100:0} to {aged.High * 100:0})"), "%",
                Invariant($"stored at {SeedStore.Moisture.Percent:0} % moisture and {Degrees.Of(SeedStore.Store.Celsius, _units)} since a year after the test (from memory); {SeedStore.SourceOf(question.Crop.Name)}")));
        }

        inputs.Add(HowInput.Of("house", house.Points, "+0.0;-0.0;0", "points",
            house.Batches == 0 ? "from memory" : Counted(house.Batches, question.HouseCode is { } code ? $"of {question.Crop.Name} in house {code}" : $"of {question.Crop.Name}")));
        inputs.Add(HowInput.Of("expected by label and house", expected.Mean * 100, "0", "%",
            Invariant($"lots of the house differ as a + b = {expected.A + expected.B:0} says")));
        inputs.Add(own.Count == 0
            ? new HowInput("own batches of the lot", "none", "", "nothing counted yet")
            : HowInput.Of("own batches of the lot", Pooled(own).Percent, "0", "%", Counted(own.Count, $"of lot {lot!.Code}")));
        inputs.Add(HowInput.Of("normal seedlings at the temperature", normal.Percent, "0", "%", $"mix of {Degrees.Of(question.Media.Celsius, _units)}"));
        inputs.Add(HowInput.Of("a + b, how little batches differ", prior.A + prior.B, "0", "",
            own.Count + house.Batches == 0 ? "from memory" : "by the counted batches, the usual 35 (from memory) counting as three lots"));
        return new How(
            "chance that a seed comes up",
            Invariant($"(germination + house, moved by the lot's own batches) × normal seedlings = {prior.Mean * 100:0} %"),
            inputs,
            "normal seedlings: table of J. F. Harrington; shrinkage: Gelman et al. 2013, 2.5; what it starts from is from memory",
            Page);
    }

    private static string Counted(int batches, string what) => Invariant($"{batches} counted {(batches == 1 ? "batch" : "batches")} {what}");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>A counted batch and what its seed was worth when it was sown.</summary>
    private sealed class Record(GerminatedBatch batch, SeedLot lot)
    {
        public GerminatedBatch Batch => batch;

        public SeedLot Lot => lot;

        /// <summary>Of its seeds.</summary>
        public Fraction Found { get; } = new(Math.Clamp((double)batch.Fraction, 0, 1));

        public double Label { get; } = Aged(batch.CropName, lot, batch.SownOn).Median;
    }

    /// <param name="Points">Against labels.</param>
    /// <param name="Size">a + b of its lots.</param>
    /// <param name="Batches">Counted.</param>
    private sealed record HouseRecord(double Points, double Size, int Batches);
}
