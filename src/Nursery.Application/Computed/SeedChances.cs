using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Agronomy.Germination;
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
    private const double LeastExpected = 0.02;
    private const double MostExpected = 0.995;

    private readonly Units _units;
    private readonly ILookup<string, Record> _byCrop;
    private readonly ILookup<string, Record> _byVariety;
    private readonly Dictionary<(string Crop, string? House), (double Points, int Batches)> _houses = [];
    private readonly Dictionary<(string Variety, string? Lot), (double Shift, string From)> _own = [];

    private SeedChances(Units units, IReadOnlyCollection<Record> records)
    {
        _units = units;
        _byCrop = records.ToLookup(record => record.Batch.CropCode);
        _byVariety = records.ToLookup(record => record.Batch.VarietyCode);
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

    /// <summary>Null where nothing would come up at the temperature.</summary>
    public SeedChance? Of(SeedQuestion question)
    {
        var (crop, lot) = (question.Crop, question.Lot);
        var label = (double)(lot?.LabelGermination ?? GerminationWithoutLot);
        var aged = lot is null ? new Interval(label, label, label) : Aged(crop.Name, lot, question.Day);
        var house = HouseOf(crop.Code, question.HouseCode);
        var (shift, from) = OwnOf(question.Variety.Code, lot);
        var germination = new Fraction(Math.Clamp(aged.Median + shift, 0, 1));
        var normal = FindCropEmergence.Of(crop).Published?.Normal.At(question.Media) ?? new Fraction(1);
        return SeedPrior.Find(germination, normal, house.Points) is { } prior
            ? new SeedChance(prior, germination, house.Points, normal, HowOf(question, aged, (shift, from), house, normal, prior))
            : null;
    }

    private static Interval Aged(string crop, SeedLot lot, LocalDate day) => lot.Form == SeedForm.Primed
        ? new Interval((double)lot.LabelGermination, (double)lot.LabelGermination, (double)lot.LabelGermination)
        : SeedStore.After(crop, new Fraction((double)lot.LabelGermination), Period.DaysBetween(lot.TestedOn, day));

    /// <summary>Points a house takes from a crop: the usual ones, moved by what was counted there against the labels, each lot as one record.</summary>
    private (double Points, int Batches) HouseOf(string crop, string? house)
    {
        if (_houses.TryGetValue((crop, house), out var known))
        {
            return known;
        }

        var records = _byCrop[crop].Where(record => house is null || record.Batch.HouseCode == house).ToList();
        var lots = records.GroupBy(record => record.Batch.LotCode)
            .Select(lot => OwnRecord.Of([.. lot.Select(record => (record.Batch.Seeds, record.Germinated, record.Label))]).With(OwnRecord.BetweenLots));
        var believed = OwnRecord.Believed(SeedPrior.UsualHousePoints / 100, OwnRecord.BetweenHouses, [.. lots]);
        return _houses[(crop, house)] = (100 * Math.Clamp(believed, -0.6, 0.2), records.Count);
    }

    /// <summary>How much better or worse than its label a lot is, by its own batches since the test; else by other lots of the variety.</summary>
    private (double Shift, string From) OwnOf(string variety, SeedLot? lot)
    {
        if (_own.TryGetValue((variety, lot?.Code), out var known))
        {
            return known;
        }

        var ofLot = lot is null ? [] : _byVariety[variety].Where(record => record.Lot.Id == lot.Id && record.Batch.SownOn >= lot.TestedOn).ToList();
        var others = ofLot.Count > 0 ? [] : _byVariety[variety].Where(record => lot is null || record.Lot.Id != lot.Id).ToList();
        OwnRecord[] records = ofLot.Count > 0
            ? [Against(ofLot)]
            : [.. others.GroupBy(record => record.Lot.Id).Select(group => Against(group).With(OwnRecord.BetweenLots))];
        var shift = OwnRecord.Believed(0, OwnRecord.BetweenLots, records);
        var from = (ofLot.Count, others.Count) switch
        {
            ( > 0, _) => Counted(ofLot.Count, $"of lot {lot!.Code}"),
            (_, > 0) => Counted(others.Count, "of other lots of the variety"),
            _ => "nothing counted yet",
        };
        return _own[(variety, lot?.Code)] = (shift, from);

        OwnRecord Against(IEnumerable<Record> group) => OwnRecord.Of(
        [
            .. group.Select(record => (record.Batch.Seeds, record.Germinated, Math.Clamp(
                record.Label + (HouseOf(record.Batch.CropCode, record.Batch.HouseCode).Points / 100), LeastExpected, MostExpected))),
        ]);
    }

    private How HowOf(
        SeedQuestion question, Interval aged, (double Shift, string From) own, (double Points, int Batches) house, Fraction normal, BetaShape prior)
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

        inputs.Add(HowInput.Of("own record", own.Shift * 100, "+0.0;-0.0;0", "points", own.From));
        inputs.Add(HowInput.Of("house", house.Points, "+0.0;-0.0;0", "points",
            house.Batches == 0 ? "from memory" : Counted(house.Batches, question.HouseCode is { } code ? $"of {question.Crop.Name} in house {code}" : $"of {question.Crop.Name}")));
        inputs.Add(HowInput.Of("normal seedlings at the temperature", normal.Percent, "0", "%", $"mix of {Degrees.Of(question.Media.Celsius, _units)}"));
        inputs.Add(HowInput.Of("a + b, how little batches differ", prior.A + prior.B, "0", "", "from memory"));
        return new How(
            "chance that a seed comes up",
            Invariant($"(germination + own record + house) × normal seedlings = {prior.Mean * 100:0} %"),
            inputs,
            "normal seedlings: table of J. F. Harrington; shrinkage: Gelman et al. 2013, 2.5; the spreads are from memory",
            Page);
    }

    private static string Counted(int batches, string what) => Invariant($"{batches} counted {(batches == 1 ? "batch" : "batches")} {what}");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>A counted batch and what its seed was worth when it was sown.</summary>
    private sealed class Record(GerminatedBatch batch, SeedLot lot)
    {
        public GerminatedBatch Batch => batch;

        public SeedLot Lot => lot;

        public int Germinated { get; } = Math.Clamp((int)Math.Round(batch.Emerged), 0, batch.Seeds);

        public double Label { get; } = Aged(batch.CropName, lot, batch.SownOn).Median;
    }
}
