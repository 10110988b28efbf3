using Xunit;
using static Nursery.Application.Tests.Scenario.DemoFiles;

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

    private static int Placed => Batches.Count(batch => batch["bench"].Length > 0);

    /// <summary>The sizes the demo must have to be a nursery of some size.</summary>
    [Theory]
    [InlineData("houses.csv", 4)]
    [InlineData("benches.csv", 24)]
    [InlineData("heat_zones.csv", 10)]
    [InlineData("crops.csv", 24)]
    [InlineData("varieties.csv", 120)]
    [InlineData("seed_lots.csv", 160)]
    [InlineData("orders.csv", 300)]
    [InlineData("batches.csv", 60)]
    public void Rows_OfAFile_AreAtLeast(string file, int atLeast) =>
        Assert.True(Count(file) >= atLeast, $"{file} has {Count(file)} rows");

    [Fact]
    public void Batches_LeftForTheUser_AreAboutFifteen() => Assert.InRange(Batches.Count - Placed, 12, 20);

    /// <summary>Spaces by the size of a 1020 tray, 27.7 × 54.4 cm, the long side across; aisles of 60 cm (24 in) are our own
    /// least (common practice, no source; what a building code or a wheelchair asks is wider).</summary>
    [Fact]
    public void Benches_InTheirHouse_HoldTheirSpacesAndLeaveAisles()
    {
        Assert.All(Benches.Values, bench => Assert.Equal(
            (Whole(bench, "width_cm") * 10 / 544, Whole(bench, "width_cm") * 10 / 544 * (Whole(bench, "length_cm") * 10 / 277)),
            (Whole(bench, "rows"), Whole(bench, "spaces"))));
        foreach (var house in Benches.Values.GroupBy(bench => bench["house"]))
        {
            var pairs = house.SelectMany(one => house.Where(other => other != one).Select(other => (one, other)));
            Assert.All(pairs, pair => Assert.True(
                Gap(pair.one, pair.other, "x_cm", "length_cm") >= 60 || Gap(pair.one, pair.other, "y_cm", "width_cm") >= 60,
                $"no aisle between {pair.one["code"]} and {pair.other["code"]}"));
        }

        static int Gap(IReadOnlyDictionary<string, string> one, IReadOnlyDictionary<string, string> other, string at, string size) =>
            Math.Max(Whole(one, at) - Whole(other, at) - Whole(other, size), Whole(other, at) - Whole(one, at) - Whole(one, size));
    }

    /// <summary>What the demo is to show: plan and fact apart, and an order that wants sowing with nobody planning it.</summary>
    [Fact]
    public void Files_Together_ShowWhatAGrowerMustNotice()
    {
        var heat = Read("reservations.csv").Where(row => Benches[row["bench"]]["kind"] == "germination").ToDictionary(row => Whole(row, "batch_row"));
        var movedOff = Read("ledger.csv").Where(row => row["kind"] == "moveOffHeat").ToDictionary(row => Whole(row, "batch_row"), row => Whole(row, "on"));
        var sown = heat.Where(row => Batches[row.Key - 1]["sown"] == "yes").ToList();
        var margin = Whole(Read("site.csv").Single(), "margin_days");
        var planned = Batches.SelectMany(batch => batch["orders"].Split(';').Select(order => (order, batch["variety"]))).ToHashSet();
        var forgotten = Read("orders.csv").Where(line => !planned.Contains((line["order"], line["variety"])))
            .Select(line => Whole(line, "ready_on") - (Whole(Crops[CropOfVariety[line["variety"]]], "weeks_to_transplant") * 7) - margin)
            .ToList();

        Assert.Contains(sown, row => Whole(row.Value, "to") < 0 && !movedOff.ContainsKey(row.Key));
        Assert.Contains(sown, row => movedOff.TryGetValue(row.Key, out var day) && day < Whole(row.Value, "to"));
        Assert.InRange(forgotten.Count(sowOn => sowOn <= 14), 1, 5);
        Assert.All(forgotten, sowOn => Assert.True(sowOn > 0, $"an order line nobody planned should have been sown on day {sowOn}"));
    }

    /// <summary>The crops' limits are published (named in crops.csv, compared with the tables elsewhere); here only that the plan keeps them.</summary>
    [Fact]
    public void Reservations_OnGerminationBenches_LieInZonesTheSeedAccepts()
    {
        var zones = Read("heat_zones.csv");
        var onHeat = Read("reservations.csv").Where(row => Benches[row["bench"]]["kind"] == "germination").ToList();

        Assert.Equal(Placed, onHeat.Count);
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

        Assert.Equal(Placed, growing.Count);
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
}
