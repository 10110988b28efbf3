using Microsoft.EntityFrameworkCore;
using Nursery.Application.Crops;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Ledger;
using Xunit;

namespace Nursery.Application.Tests.Setup;

/// <summary>From an empty database: files in, files out, and back in again.</summary>
public sealed class ImportSetupListTests : IAsyncLifetime
{
    private static readonly (string List, string File)[] Files =
    [
        ("houses", "houses.csv"), ("benches", "benches.csv"), ("heat-zones", "heat_zones.csv"), ("crops", "crops.csv"),
        ("varieties", "varieties.csv"), ("people", "people.csv"),
    ];

    private EmptyNursery _nursery = null!;

    public async Task InitializeAsync() => _nursery = await EmptyNursery.OpenAsync();

    public async Task DisposeAsync() => await _nursery.DisposeAsync();

    /// <summary>A file of before the sowing terms: it changes what it names, and leaves what it lacks.</summary>
    [Fact]
    public async Task HandleAsync_FileWithoutLaterColumns_KeepsThem()
    {
        var csv = await File.ReadAllTextAsync(Path.Combine(Scenario.DemoNursery.Folder, "crops.csv"));
        await _nursery.ImportAsync("crops", csv);
        var lines = (await _nursery.ExportAsync("crops")).Split("\r\n");
        var beet = Array.FindIndex(lines, line => line.StartsWith("BE,", StringComparison.Ordinal));
        Assert.EndsWith(",,,,", lines[beet], StringComparison.Ordinal);
        lines[beet] = lines[beet][..^4] + ",3,5,88.5,12.5";
        var terms = await _nursery.ImportAsync("crops", string.Join("\r\n", lines));
        Assert.Equal((0, 1), (terms.Errors.Count, terms.Changed));

        var old = await _nursery.ImportAsync("crops", csv.Replace("Beet,Beta vulgaris", "Beetroot,Beta vulgaris", StringComparison.Ordinal));

        Assert.Equal((0, 1), (old.Errors.Count, old.Changed));
        await using var database = await _nursery.DatabaseAsync();
        var crop = await database.Crops.SingleAsync(row => row.Code == "BE");
        Assert.Equal(("Beetroot", 3, 5, 0.885m, 12.5m), (crop.Name, crop.KeepLow, crop.KeepHigh, crop.Survival, crop.SeedPrice));
        lines[beet] = lines[beet].Replace(",3,5,88.5", ",6,5,99.95", StringComparison.Ordinal);
        Assert.Equal(["keep_high", "survival_percent"], (await _nursery.ImportAsync("crops", string.Join("\r\n", lines))).Errors.Select(error => error.Field).Order());
    }

    [Theory]
    [InlineData("gypsum 600, limestone 2000", true)]
    [InlineData("gypsum 0.5", true)]
    [InlineData("", true)]
    [InlineData("gypsum", false)]
    [InlineData("gypsum -1", false)]
    [InlineData("gypsum 100001", false)]
    [InlineData("600", false)]
    public async Task HandleAsync_MixAmendments_AreNamesWithGrams(string text, bool allowed)
    {
        var lines = (await _nursery.ExportAsync("site")).Split("\r\n");
        var columns = lines[0].Split(',').ToList();
        var cells = SimpleCsv.Read(string.Join("\r\n", lines))[1].ToList();
        cells[columns.IndexOf("mix_amendments")] = text;

        var import = await _nursery.ImportAsync("site", $"{lines[0]}\r\n{string.Join(',', cells.Select(cell => $"\"{cell}\""))}\r\n");

        Assert.Equal(allowed ? [] : ["mix_amendments"], import.Errors.Select(error => error.Field));
        var exported = SimpleCsv.Read(await _nursery.ExportAsync("site"))[1];
        Assert.Equal(allowed ? text : "", exported[columns.IndexOf("mix_amendments")]);
    }

    [Fact]
    public async Task HandleAsync_DemoFiles_RoundTripThroughExportWithNothingNew()
    {
        foreach (var (list, file) in Files)
        {
            var csv = await File.ReadAllTextAsync(Path.Combine(Scenario.DemoNursery.Folder, file));
            var first = await _nursery.ImportAsync(list, csv);
            Assert.Empty(first.Errors);
            Assert.True(first.Created > 0, list);

            var again = await _nursery.ImportAsync(list, csv);
            Assert.Equal((0, 0, first.Rows), (again.Created, again.Changed, again.Unchanged));

            var exported = await _nursery.ExportAsync(list);
            var back = await _nursery.ImportAsync(list, exported);
            Assert.Empty(back.Errors);
            Assert.Equal((0, 0), (back.Created, back.Changed));

            // Another reader finds the same cells as were imported.
            var ours = SimpleCsv.Read(exported);
            var theirs = SimpleCsv.Read(csv.ReplaceLineEndings("\r\n"));
            Assert.Equal(theirs[0], ours[0].Take(theirs[0].Count));
            Assert.Equal(list is "crops" ? 4 : 0, ours[0].Count - theirs[0].Count);
            Assert.Equal(theirs.Count - 1, ours.Count - (list == "people" ? 2 : 1));
        }
    }

    [Fact]
    public async Task HandleAsync_ChangedRow_DryRunTellsBothValuesAndStoresNothing()
    {
        await _nursery.ImportAsync("houses", "code,name,length_cm,width_cm,round_order\nH1,House 1,1800,900,1\n");

        var dry = await _nursery.ImportAsync("houses", "code,name,length_cm,width_cm,round_order\nH1,House 1,2000,900,1\nH2,House 2,1800,900,2\n", dryRun: true);

        Assert.Equal((1, 1, 0), (dry.Created, dry.Changed, dry.Unchanged));
        Assert.Equal([new FieldChange("length_cm", "1800", "2000")], dry.Changes.Single(change => change.Key == "H1").Fields);
        Assert.Equal("1800", (await _nursery.RowAsync("houses", "H1")).Fields["length_cm"]);
    }

    [Fact]
    public async Task HandleAsync_WrongLines_TellsEveryOneAndStoresNothing()
    {
        var result = await _nursery.ImportAsync("houses", "code,name,length_cm,width_cm,round_order\nH1,House 1,wide,900,1\nH2,House 2,1800,900,2\nH2,House 3,1800,-1,2\n");

        Assert.Equal(
            [("length_cm", 2), ("width_cm", 4), ("code", 4)],
            result.Errors.Select(error => (error.Field, error.Line!.Value)));
        await using var database = await _nursery.DatabaseAsync();
        Assert.False(await database.Houses.AnyAsync());
    }

    [Fact]
    public async Task HandleAsync_BenchOverBenchOfTheDatabase_IsNamed()
    {
        const string header = "house,code,name,kind,band,length_cm,width_cm,x_cm,y_cm,spaces,rows,round_order\n";
        await _nursery.ImportAsync("houses", "code,name,length_cm,width_cm,round_order\nH1,House 1,1800,900,1\n");
        Assert.Empty((await _nursery.ImportAsync("benches", header + "H1,A,Bench A,growing,warm,500,165,0,0,54,3,1\n")).Errors);

        var result = await _nursery.ImportAsync("benches", header + "H1,B,Bench B,growing,warm,500,165,499,164,54,3,1\nH1,C,Bench C,growing,warm,500,165,1301,0,54,3,1\n");

        Assert.Contains(result.Errors, error => error.Line == 2 && error.Field == "x_cm" && error.Allowed.Contains("bench A", StringComparison.Ordinal));
        Assert.Contains(result.Errors, error => error.Line == 3 && error.Allowed == "a bench inside house H1");
    }

    [Fact]
    public async Task HandleAsync_VarietyOfUnknownCrop_TakesTheStartingProfileMarkedWithItsSources()
    {
        var result = await _nursery.ImportAsync("varieties", "code,crop,name\nTO-ONE,TO,One\nTO-TWO,TO,Two\nPE-ONE,PE,One\n");

        Assert.Equal(["TO", "PE"], result.StartingCrops);
        var tomato = await _nursery.RowAsync("crops", "TO");
        Assert.StartsWith(StartingCrops.Mark + "germination temperatures: ", tomato.Fields["sources"], StringComparison.Ordinal);
        var unknown = await _nursery.ImportAsync("varieties", "code,crop,name\nXX-ONE,XX,One\n");
        Assert.Equal("the code of a crop", Assert.Single(unknown.Errors).Allowed);
    }

    /// <summary>The signs that start a formula: OWASP, CSV Injection (community page, undated).</summary>
    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@SUM(A1)")]
    [InlineData("'=1+1")]
    [InlineData("'plain")]
    [InlineData("a \"quoted\", name")]
    public async Task Export_NameThatCouldRun_IsDefusedAndComesBackAsTyped(string name)
    {
        await _nursery.ImportAsync("varieties", "code,crop,name\nTO-ONE,TO,One\n");
        var row = await _nursery.RowAsync("varieties", "TO-ONE");
        await _nursery.SaveAsync("varieties", row, "name", name);

        var exported = await _nursery.ExportAsync("varieties");

        var cell = SimpleCsv.Read(exported)[1][2];
        Assert.DoesNotContain(cell[0], "=+-@\t\r");
        Assert.Equal(0, (await _nursery.ImportAsync("varieties", exported)).Changed);
        Assert.Equal(name, (await _nursery.RowAsync("varieties", "TO-ONE")).Fields["name"]);
    }

    [Fact]
    public async Task HandleAsync_SeedLots_MoreSeedIsAReceiptAndStockFollows()
    {
        const string header = "code,variety,supplier,supplier_lot,form,treated,label_germination_percent,tested_on,seeds,seeds_per_gram\n";
        await _nursery.ImportAsync("varieties", "code,crop,name\nTO-ONE,TO,One\n");
        await _nursery.ImportAsync("seed-lots", header + "L-1,TO-ONE,Thornmere,T1,raw,no,90,2026-01-12,1000,300\n");
        await _nursery.ImportAsync("seed-lots", header + "L-1,TO-ONE,Thornmere,T1,raw,no,90,2026-01-12,1500,300\n");

        await using var database = await _nursery.DatabaseAsync();
        Assert.Equal(1500, (await database.SeedLots.SingleAsync()).StockSeeds);
        var receipts = (await database.Ledger.Where(entry => entry.Kind == LedgerKind.Receipt).ToListAsync())
            .Select(entry => ((Receipt)entry.Value).Seeds);
        Assert.Equal([500, 1000], receipts.Order());
        Assert.Equal(0, (await _nursery.ImportAsync("seed-lots", await _nursery.ExportAsync("seed-lots"))).Changed);
    }
}
