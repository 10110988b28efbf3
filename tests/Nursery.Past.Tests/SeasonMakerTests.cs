using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Xunit;

namespace Nursery.Past.Tests;

public sealed class SeasonMakerTests
{
    private static readonly PastSeason Season = SeasonMaker.Make(PlainNursery.Make(), 1);

    [Fact]
    public void Make_SameSeedInAnotherCulture_GivesTheSameBytes()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(Hash(Season), Hash(SeasonMaker.Make(PlainNursery.Make(), 1)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Make_OtherSeed_GivesOtherBytes() => Assert.NotEqual(Hash(Season), Hash(SeasonMaker.Make(PlainNursery.Make(), 2)));

    [Fact]
    public void Make_Season_IsLongAndFullEnough()
    {
        Assert.True(Season.Batches.Count >= 250);
        Assert.True(Season.Entries.Max(entry => entry.Day) - Season.Entries.Min(entry => entry.Day) >= 26 * 7);
        Assert.All(Season.Batches, batch => Assert.Single(Season.Entries, entry => entry.Batch == batch.Number && entry.Work == PastWork.HandOver));
        Assert.All(Season.Batches, batch => Assert.Single(Season.Entries, entry => entry.Batch == batch.Number && entry.Work == PastWork.ClearBench));
        Assert.All(Season.Entries, entry => Assert.InRange(entry.Day, -SeasonMaker.Days, -1));
    }

    [Fact]
    public void Make_Places_AreNeverHeldTwice()
    {
        var held = Season.Batches.SelectMany(batch => new[] { batch.Heat, batch.Growing, batch.Hardening }).Concat(PlainNursery.Make().Held)
            .SelectMany(place => Enumerable.Range(place.FirstSpace, place.Spaces)
                .SelectMany(space => Enumerable.Range(place.From, place.To - place.From).Select(day => (place.Bench, space, day))))
            .ToList();

        Assert.Equal(held.Count, held.Distinct().Count());
    }

    [Fact]
    public void Make_FinalFraction_IsTheLotsViabilityButForTraysAndCold()
    {
        var lots = Season.Lots.ToDictionary(lot => lot.Code);
        var kept = Truths().Where(row => row.Batch.Zone != Season.Truth.ColdZone && row.Batch.Crop is "TO" or "CA").ToList();
        var differences = kept.ConvertAll(row => row.Truth.FinalFraction - lots[row.Batch.Lot].Viability);

        Assert.True(kept.Count > 50);
        Assert.InRange(differences.Average(), -0.03, 0.01);
    }

    [Fact]
    public void Make_BadLot_ComesUpFarThinnerThanItsLabelSays()
    {
        var bad = Assert.Single(Season.Lots, lot => lot.IsBad);
        var fractions = Truths().Where(row => row.Batch.Lot == bad.Code).Select(row => row.Truth.FinalFraction).ToList();

        Assert.Equal(Season.Truth.BadLot, bad.Code);
        Assert.True(fractions.Count >= 3);
        Assert.All(fractions, fraction => Assert.InRange(fraction, 0.3, 0.55));
        Assert.Equal(90, bad.LabelPercent);
    }

    [Fact]
    public void Make_ColdZone_ComesUpLaterThanItsTwin()
    {
        Assert.Equal("Z2", Season.Truth.ColdZone);
        foreach (var crop in new[] { "PE", "TO" })
        {
            var medians = Truths().Where(row => row.Batch.Crop == crop).ToLookup(row => row.Batch.Zone, row => row.Truth.MedianDay);
            Assert.True(
                medians["Z2"].Average() > medians["Z1"].Average() + 1,
                FormattableString.Invariant($"{crop}: {medians["Z2"].Count()} in the cold after {medians["Z2"].Average():0.0} days, others after {medians["Z1"].Average():0.0}"));
        }
    }

    [Fact]
    public void Make_Counts_AreOfTheTruthButForOne()
    {
        // The last look before the trays leave the heat can see no more plants than came up in all, and one by mistake.
        var counts = Season.Entries.Where(entry => entry is { Work: PastWork.CountSeedlings, Trays: null }).ToLookup(entry => entry.Batch!.Value);
        foreach (var (batch, truth) in Truths())
        {
            var seeds = batch.Trays * batch.CellsPerTray * batch.SeedsPerCell;
            Assert.All(counts[batch.Number], entry => Assert.InRange(entry.Value, 0, Math.Round(truth.FinalFraction * seeds) + 1));
        }
    }

    [Fact]
    public void Make_Accidents_AreInTheTruthAndReported()
    {
        var losses = Season.Entries.Where(entry => entry.Work == PastWork.Loss).ToLookup(entry => entry.Word);
        Assert.InRange(losses["damping off"].Sum(entry => entry.Value), 1, Season.Truth.Batches.Sum(batch => batch.DampedOff) + losses["damping off"].Count());
        Assert.NotEmpty(losses["tray dropped"]);
        Assert.NotEmpty(Season.Truth.MissedDays);
        Assert.Equal(["gompertz", "twoPopulations"], Season.Truth.Batches.Select(batch => batch.Curve).Distinct().Order(StringComparer.Ordinal));
        Assert.DoesNotContain(Season.Entries, entry => Season.Truth.MissedDays.Contains(entry.Day));
        Assert.Contains(Season.Entries, entry => entry is { Worker: 1, Work: PastWork.CountBlanks });
        Assert.DoesNotContain(Season.Entries, entry => entry is { Worker: 1, Work: PastWork.CountSeedlings });
    }

    [Fact]
    public void Make_Dips_AreInTheZonesTemperatures()
    {
        var zone = Season.Truth.MediaC["Z3"];
        Assert.All(Season.Truth.Dips, dip => Assert.InRange(zone[dip.From - Season.Truth.FirstDay], 21 - dip.ByC - 3, 21 - dip.ByC + 3));
    }

    private static IEnumerable<(PastBatch Batch, BatchTruth Truth)> Truths() =>
        Season.Batches.Zip(Season.Truth.Batches, (batch, truth) => batch.Number == truth.Batch ? (batch, truth) : throw new InvalidOperationException("out of step"));

    private static string Hash(PastSeason season) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(
        SeasonText.Truth(season) + SeasonText.Batches(season) + SeasonText.Entries(season))));
}
