using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Heat;
using Nursery.Agronomy.Sowing;
using Nursery.Past;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Heat;

/// <summary>Whole invented seasons with one zone 5 °C colder than it is set to, whose truth is kept beside them: rates and curves are not
/// ours, trays differ, some batches are sampled or counted by blanks only.</summary>
public sealed class PastZonesTests(ITestOutputHelper output)
{
    [Fact]
    public void Learn_InventedSeasons_FindsTheColdZone()
    {
        var (within, all) = (0, 0);
        foreach (var seed in Enumerable.Range(1, 8).Select(number => (ulong)number))
        {
            var season = SeasonMaker.Make(PastGround.Nursery, seed);
            var learnt = ZoneOffsets.Learn(Batches(season));
            foreach (var zone in learnt)
            {
                var truth = season.Truth.MediaC[zone.Zone].Average() - PastGround.Zone(zone.Zone).SetpointC;
                output.WriteLine(FormattableString.Invariant($"{seed} {zone.Zone} {zone.Batches} batches: {zone.Celsius.Median:0.0} ({zone.Celsius.Low:0.0} to {zone.Celsius.High:0.0}), truly {truth:0.0}"));
                if (zone.Zone != season.Truth.ColdZone)
                {
                    (within, all) = (within + (truth >= zone.Celsius.Low && truth <= zone.Celsius.High ? 1 : 0), all + 1);
                }
            }

            var cold = learnt.Single(zone => zone.Zone == season.Truth.ColdZone);
            Assert.True(cold.IsKnown);
            Assert.Equal(cold, learnt.MinBy(zone => zone.Celsius.Median));
            Assert.True(cold.Celsius.Median < (double)MediaOffset.DefaultCelsius - 1.5, cold.ToString());
            Assert.True(learnt.Where(zone => zone != cold).All(zone => zone.Celsius.Median > cold.Celsius.Median + 2));
        }

        // A zone 5 °C off is one in a hundred to the model: it is found, but taken for less than it is.
        output.WriteLine($"{within} of {all} other zones within");
        Assert.True(within >= 0.85 * all);
    }

    private static IEnumerable<ZoneBatch> Batches(PastSeason season)
    {
        var lots = season.Lots.ToDictionary(lot => lot.Code);
        var entries = season.Entries.Where(entry => entry.Batch is not null).ToLookup(entry => entry.Batch!.Value);
        foreach (var batch in season.Batches)
        {
            var crop = EmergenceDefaults.Find(PastGround.Names[batch.Crop])!;
            var setpoint = Temperature.FromDegrees(PastGround.Zone(batch.Zone).SetpointC);
            var off = entries[batch.Number].FirstOrDefault(entry => entry.Work == PastWork.MoveOffHeat)?.Day ?? batch.Heat.To;
            var counts = entries[batch.Number]
                .Where(entry => entry.Work is PastWork.CountSeedlings or PastWork.CountBlanks && entry.Day <= off)
                .Select(entry => new EmergenceCount(
                    entry.Day - batch.SowOn, entry.Work == PastWork.CountBlanks ? CountKind.Blanks : CountKind.Seedlings, entry.Value,
                    (entry.Trays ?? batch.Trays) * batch.CellsPerTray)).ToList();
            if (counts.Count == 0)
            {
                continue;
            }

            var question = new ForecastQuestion(
                crop.Rate, crop.Curve, batch.Trays * batch.CellsPerTray, batch.SeedsPerCell,
                SeedPrior.Of(Fraction.FromPercent(lots[batch.Lot].LabelPercent), new Fraction(1)),
                TemperatureRecord.Constant(MediaOffset.Of(setpoint)), counts, counts.Max(count => count.Day), 1);
            if (ApparentSpeed.Of(question) is { } speed)
            {
                yield return new ZoneBatch(
                    batch.Zone, batch.Crop, batch.Variety, crop.Rate, [(0, setpoint)], question.AsOfDay, speed.LogSlower, speed.Error);
            }
        }
    }
}
