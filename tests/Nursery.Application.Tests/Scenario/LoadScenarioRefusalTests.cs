using Microsoft.EntityFrameworkCore;
using Nursery.Application.Scenario;
using Nursery.Domain.Refusals;
using Xunit;

namespace Nursery.Application.Tests.Scenario;

/// <summary>A wrong file is told with file, line, field, value and what is allowed, and nothing of the folder is stored.</summary>
public sealed class LoadScenarioRefusalTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("scenario-").FullName;

    private DemoNursery _nursery = null!;

    public async Task InitializeAsync()
    {
        _nursery = await DemoNursery.EmptyAsync("2026-04-15T14:00:00Z");
        foreach (var file in Directory.EnumerateFiles(DemoNursery.Folder, "*.csv"))
        {
            File.Copy(file, Path.Combine(_folder, Path.GetFileName(file)));
        }
    }

    public async Task DisposeAsync()
    {
        await _nursery.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [InlineData("site.csv", 2, "America/Chicago", "Chicago/America", "time_zone")]
    [InlineData("people.csv", 2, "administrator", "boss", "role")]
    [InlineData("benches.csv", 3, "650", "100", "x_cm")]
    [InlineData("heat_zones.csv", 5, "28,27", "28,28", "spaces")]
    [InlineData("crops.csv", 2, "15.56", "45.56", "germination_optimum_c")]
    [InlineData("varieties.csv", 2, ",PE,", ",XX,", "crop")]
    [InlineData("seed_lots.csv", 2, ",83,", ",0,", "label_germination_percent")]
    [InlineData("seed_lots.csv", 2, ",2500,", ",-2500,", "seeds")]
    [InlineData("orders.csv", 2, "CA-GARTH", "CA-NONE", "variety")]
    [InlineData("batches.csv", 2, "L-0442", "L-0401", "lot")]
    [InlineData("batches.csv", 2, "K-2405;K-2406", "K-2405;K-9999", "orders")]
    [InlineData("batches.csv", 2, "-35", "2026-02-30", "sow_on")]
    [InlineData("reservations.csv", 8, "8,12,-30", "7,12,-30", "first_space")]
    [InlineData("reservations.csv", 2, "1,4,-35", "52,4,-35", "spaces")]
    [InlineData("ledger.csv", 2, "09:30", "25:30", "time")]
    [InlineData("ledger.csv", 2, "runa", "nobody", "who")]

    // Told by the use case itself, when half of the folder is written: two trays have 144 cells.
    [InlineData("ledger.csv", 33, "138", "145", "value")]
    public async Task HandleAsync_WrongLine_IsToldAndNothingStored(string file, int line, string was, string value, string field)
    {
        await ChangeAsync(file, line, was, value);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => _nursery.Get<LoadScenario>().HandleAsync(_folder));

        Assert.Contains(refusal.Errors, error => error.Field == $"{field} in {file}" && error.Line == line);
        Assert.StartsWith($"Line {line}: ", refusal.Message, StringComparison.Ordinal);
        await AssertEmptyAsync();
    }

    [Fact]
    public async Task HandleAsync_SeveralWrongLines_TellsAllOfThem()
    {
        await ChangeAsync("houses.csv", 2, "1800", "-1");
        await ChangeAsync("houses.csv", 3, "900", "wide");

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => _nursery.Get<LoadScenario>().HandleAsync(_folder));

        Assert.Equal(
            [("length_cm in houses.csv", "-1", 2), ("width_cm in houses.csv", "wide", 3)],
            refusal.Errors.Select(error => (error.Field, error.Value!, error.Line!.Value)));
        Assert.All(refusal.Errors, error => Assert.Equal("a whole number, 1–100000", error.Allowed));
    }

    [Fact]
    public async Task HandleAsync_WrongHeader_NamesTheFile()
    {
        await ChangeAsync("crops.csv", 1, "species", "Species");

        var refusal = await Assert.ThrowsAsync<Malformed>(() => _nursery.Get<LoadScenario>().HandleAsync(_folder));

        Assert.StartsWith("crops.csv: The first line is", refusal.Message, StringComparison.Ordinal);
        await AssertEmptyAsync();
    }

    [Fact]
    public async Task HandleAsync_MissingFile_NamesIt()
    {
        File.Delete(Path.Combine(_folder, "ledger.csv"));

        var refusal = await Assert.ThrowsAsync<Malformed>(() => _nursery.Get<LoadScenario>().HandleAsync(_folder));

        Assert.StartsWith("ledger.csv is missing", refusal.Message, StringComparison.Ordinal);
        await AssertEmptyAsync();
    }

    [Fact]
    public async Task HandleAsync_TwoProgramsAtOnce_OneLoadsTheOtherIsRefused()
    {
        var loads = Enumerable.Range(0, 2).Select(_ => Task.Run(() => _nursery.Get<LoadScenario>().HandleAsync(_folder))).ToList();

        var refusals = new List<DatabaseNotEmpty>();
        foreach (var load in loads)
        {
            try
            {
                await load;
            }
            catch (DatabaseNotEmpty refusal)
            {
                refusals.Add(refusal);
            }
        }

        Assert.Single(refusals);
        await using var database = await _nursery.OpenAsync();
        Assert.Equal(1, await database.Sites.CountAsync());
        Assert.Equal(DemoFiles.Count("batches.csv"), await database.Batches.CountAsync());
    }

    private async Task ChangeAsync(string file, int line, string was, string value)
    {
        var path = Path.Combine(_folder, file);
        var lines = await File.ReadAllLinesAsync(path);
        var at = lines[line - 1].IndexOf(was, StringComparison.Ordinal);
        Assert.True(at >= 0, $"line {line} of {file} has no {was}: {lines[line - 1]}");
        lines[line - 1] = lines[line - 1].Remove(at, was.Length).Insert(at, value);
        await File.WriteAllLinesAsync(path, lines);
    }

    private async Task AssertEmptyAsync()
    {
        Assert.True(await _nursery.Get<LoadScenario>().IsEmptyAsync());
        await using var database = await _nursery.OpenAsync();
        Assert.False(await database.Users.AnyAsync());
        Assert.False(await database.Ledger.AnyAsync());
        Assert.False(await database.Crops.AnyAsync());
    }
}
