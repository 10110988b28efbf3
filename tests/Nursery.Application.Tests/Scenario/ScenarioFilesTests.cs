using System.Globalization;
using Xunit;

namespace Nursery.Application.Tests.Scenario;

/// <summary>Whether the demo's files agree with each other in what the loader takes as given.</summary>
public sealed class ScenarioFilesTests
{
    private static readonly List<IReadOnlyDictionary<string, string>> Batches = Read("batches.csv");
    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Benches =
        Read("benches.csv").ToDictionary(bench => bench["code"]);

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Crops =
        Read("crops.csv").ToDictionary(crop => crop["code"]);

    private static readonly Dictionary<string, string> CropOfVariety =
        Read("varieties.csv").ToDictionary(variety => variety["code"], variety => variety["crop"]);

    /// <summary>The crops' limits are published (named in crops.csv, compared with the tables elsewhere); here only that the plan keeps them.</summary>
    [Fact]
    public void Reservations_OnGerminationBenches_LieInZonesTheSeedAccepts()
    {
        var zones = Read("heat_zones.csv");
        var onHeat = Read("reservations.csv").Where(row => Benches[row["bench"]]["kind"] == "germination").ToList();

        Assert.Equal(22, onHeat.Count);
        Assert.All(onHeat, row =>
        {
            var (first, last) = (Whole(row, "first_space"), Whole(row, "first_space") + Whole(row, "spaces") - 1);
            var under = zones.Where(zone => zone["bench"] == row["bench"]
                && Whole(zone, "first_space") <= last && first <= Whole(zone, "first_space") + Whole(zone, "spaces") - 1).ToList();
            var crop = CropOf(row);
            Assert.NotEmpty(under);
            Assert.All(under, zone => Assert.InRange(
                Number(zone, "setpoint_c"), Number(crop, "germination_min_c"), Number(crop, "germination_max_c")));
        });
    }

    [Fact]
    public void Reservations_OnGrowingBenches_HaveTheBandOfTheCrop()
    {
        var growing = Read("reservations.csv").Where(row => Benches[row["bench"]]["kind"] == "growing").ToList();

        Assert.Equal(22, growing.Count);
        Assert.All(growing, row => Assert.Equal(CropOf(row)["grow_on_band"], Benches[row["bench"]]["band"]));
    }

    [Fact]
    public void Reservations_OfABatch_FollowOneAnotherFromTheSowingDay()
    {
        foreach (var chain in Read("reservations.csv").GroupBy(row => Whole(row, "batch_row")))
        {
            var day = Whole(Batches[chain.Key - 1], "sow_on");
            foreach (var row in chain)
            {
                Assert.Equal(day, Whole(row, "from"));
                day = Whole(row, "to");
            }

            Assert.Equal(["germination", "growing", "hardening"], chain.Select(row => Benches[row["bench"]]["kind"]));
        }
    }

    [Fact]
    public void Batches_SowDay_IsReadyDayLessWeeksAndMargin()
    {
        var margin = Whole(Read("site.csv").Single(), "margin_days");
        var lines = Read("orders.csv");

        Assert.All(Batches, batch =>
        {
            var ready = batch["orders"].Split(';')
                .SelectMany(order => lines.Where(line => line["order"] == order && line["variety"] == batch["variety"]))
                .Min(line => Whole(line, "ready_on"));
            var weeks = Whole(Crops[CropOfVariety[batch["variety"]]], "weeks_to_transplant");
            Assert.Equal(ready - (weeks * 7) - margin, Whole(batch, "sow_on"));
        });
    }

    private static IReadOnlyDictionary<string, string> CropOf(IReadOnlyDictionary<string, string> reservation) =>
        Crops[CropOfVariety[Batches[Whole(reservation, "batch_row") - 1]["variety"]]];

    private static int Whole(IReadOnlyDictionary<string, string> row, string field) =>
        int.Parse(row[field], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);

    private static decimal Number(IReadOnlyDictionary<string, string> row, string field) =>
        decimal.Parse(row[field], NumberStyles.Number, CultureInfo.InvariantCulture);

    private static List<IReadOnlyDictionary<string, string>> Read(string file)
    {
        var text = CsvText.Decode(File.ReadAllBytes(Path.Combine(DemoNursery.Folder, file)));
        return [.. CsvText.Read(text, text.Split('\n')[0].TrimEnd('\r').Split(','), 1000).Select(row => row.Fields)];
    }
}
