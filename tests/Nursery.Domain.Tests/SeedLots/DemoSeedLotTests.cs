using Xunit;
using static Nursery.Domain.Tests.RepositoryCsv;

namespace Nursery.Domain.Tests.SeedLots;

/// <summary>
/// Source: 7 CFR 201.31, minimum germination standards for vegetable seeds in interstate commerce (US Department of Agriculture,
/// 1994 text), tests/reference/01a_fsa_min_germination.csv.
/// </summary>
public sealed class DemoSeedLotTests
{
    [Fact]
    public void LabelGermination_AllLots_OnlyAFewBelowThePublishedMinimum()
    {
        var minimumByKind = Read("tests", "reference", "01a_fsa_min_germination.csv").ToDictionary(row => row["kind"], row => Number(row["min_germination_pct"]));
        var kindByCrop = Read("seed-scenario", "crops.csv").ToDictionary(crop => crop["code"], crop => Kind(crop["name"]));
        var cropByVariety = Read("seed-scenario", "varieties.csv").ToDictionary(variety => variety["code"], variety => variety["crop"]);
        var lots = Read("seed-scenario", "seed_lots.csv");
        var covered = lots.Where(lot => minimumByKind.ContainsKey(kindByCrop[cropByVariety[lot["variety"]]])).ToList();
        var below = covered
            .Where(lot => Number(lot["label_germination_percent"]) < minimumByKind[kindByCrop[cropByVariety[lot["variety"]]]])
            .Select(lot => lot["code"])
            .ToList();

        Assert.True(lots.Count >= 160, $"{lots.Count} lots");

        // Basil and the flowers are the crops the rule for vegetables does not name.
        Assert.Equal(
            ["BA", "CD", "MA", "PT"],
            kindByCrop.Where(crop => !minimumByKind.ContainsKey(crop.Value)).Select(crop => crop.Key).Order());

        // A few old lots are kept below the standard so that the flag has something to show.
        Assert.InRange(below.Count, 1, lots.Count / 20);
    }

    private static string Kind(string cropName) => cropName switch
    {
        "Summer squash" => "Squash",
        "Muskmelon" => "Melon",
        "Swiss chard" => "Chard, Swiss",
        "Pak choi" => "Pak-choi",
        _ => cropName,
    };
}
