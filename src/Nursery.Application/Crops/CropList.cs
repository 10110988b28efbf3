using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Benches;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.People;

namespace Nursery.Application.Crops;

internal sealed class CropList : SetupList<Crop>
{
    private static readonly Dictionary<string, LightNeed> Lights = new()
    {
        ["needsLight"] = LightNeed.NeedsLight,
        ["indifferent"] = LightNeed.Indifferent,
        ["dark"] = LightNeed.Dark,
    };

    public override SetupListInfo Info { get; } = new("crops", "Crops", "crop", Right.Plan,
    [
        new("code", "Code") { Hint = "two capital letters; batch codes start with them" },
        new("name", "Name"),
        new("species", "Species"),
        new("germination_min_c", "Germinates from", ColumnKind.Celsius),
        new("germination_optimum_c", "best at", ColumnKind.Celsius),
        new("germination_max_c", "up to", ColumnKind.Celsius),
        new("days_to_emergence", "Days to emergence", ColumnKind.Whole) { Hint = "at the best temperature" },
        new("weeks_to_transplant", "Weeks to transplant", ColumnKind.Whole) { Hint = "from sowing" },
        new("depth_mm", "Sowing depth", ColumnKind.Millimeters) { Hint = "0 is pressed on the surface" },
        new("light", "Light", ColumnKind.Word) { Words = [.. Lights.Keys] },
        new("cells_per_tray", "Cells a tray", ColumnKind.Whole),
        new("seeds_per_cell", "Seeds a cell", ColumnKind.Whole),
        new("move_off_fraction", "Moves off heat when this share is up", ColumnKind.Number) { Hint = "0–1" },
        new("thin_days_after_emergence", "Thinned, days after emergence", ColumnKind.Whole) { MayBeEmpty = true, Hint = "empty: never thinned" },
        new("feed_from_days", "First fed, days after emergence", ColumnKind.Whole) { MayBeEmpty = true, Hint = "empty: never fed" },
        new("feed_every_days", "then fed every so many days", ColumnKind.Whole) { MayBeEmpty = true },
        new("space_days", "Set apart, days after emergence", ColumnKind.Whole) { MayBeEmpty = true, Hint = "empty: trays stand tight to the end" },
        new("hardening_days", "Hardening days", ColumnKind.Whole) { Hint = "the last days before ready" },
        new("grow_on_band", "Grows on", ColumnKind.Word) { Words = [.. BenchList.Bands.Keys] },
        new("sources", "Sources", ColumnKind.LongText) { Hint = "where each value is from: a publication, 'from memory', or 'common practice, no source'" },
        new("keep_low", "Plants kept in a cell, from", ColumnKind.Whole) { MayBeEmpty = true, IsLater = true, Hint = "empty: one, or a clump where several seeds are sown and never thinned" },
        new("keep_high", "up to", ColumnKind.Whole) { MayBeEmpty = true, IsLater = true, Hint = "more are thinned" },
        new("survival_percent", "Usable of the emerged", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "on average, %; empty: 95, from memory; 90 where damping-off is common" },
        new("seed_price", "Price of 1,000 seeds", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "empty: the site's" },
    ]);

    public override Dictionary<string, Crop> Of(NurseryRows rows) => rows.Crops;

    public override Crop? Read(CsvRow line, NurseryRows rows, Crop? known)
    {
        var crop = CropOf(line, rows.Time, known);
        if (crop.Code.Length != 2 || !crop.Code.All(char.IsAsciiLetterUpper))
        {
            line.Fail("code", "two capital letters");
        }

        if (crop.GerminationMinC >= crop.GerminationOptimumC || crop.GerminationOptimumC >= crop.GerminationMaxC)
        {
            line.Fail("germination_optimum_c", "above the minimum and below the maximum");
        }

        if (crop.FeedFromDays is null != crop.FeedEveryDays is null)
        {
            line.Fail("feed_every_days", "given together with feed_from_days, or both empty");
        }

        if (crop.KeepLow is null != crop.KeepHigh is null || crop.KeepLow > crop.KeepHigh)
        {
            line.Fail("keep_high", "given together with keep_low and not below it, or both empty");
        }

        return crop;
    }

    internal static Crop CropOf(CsvRow line, TimeProvider time, Crop? known) => new()
    {
        Id = known?.Id ?? NewId.Of<Crop>(time),
        Code = line.Text("code", 2),
        Name = line.Text("name"),
        Species = line.Text("species"),
        GerminationMinC = line.Number("germination_min_c", -10, 60),
        GerminationOptimumC = line.Number("germination_optimum_c", -10, 60),
        GerminationMaxC = line.Number("germination_max_c", -10, 60),
        DaysToEmergence = line.Whole("days_to_emergence", 1, 365),
        WeeksToTransplant = line.Whole("weeks_to_transplant", 1, 104),
        DepthMm = line.Number("depth_mm", 0, 200),
        Light = line.Word("light", Lights),
        CellsPerTray = line.Whole("cells_per_tray", 1, 512),
        SeedsPerCell = line.Whole("seeds_per_cell", 1, 50),
        MoveOffFraction = line.Number("move_off_fraction", 0, 1),
        ThinDaysAfterEmergence = line.WholeOrEmpty("thin_days_after_emergence", 0, 365),
        FeedFromDays = line.WholeOrEmpty("feed_from_days", 0, 365),
        FeedEveryDays = line.WholeOrEmpty("feed_every_days", 1, 365),
        SpaceDays = line.WholeOrEmpty("space_days", 0, 365),
        HardeningDays = line.Whole("hardening_days", 0, 365),
        GrowOnBand = line.Word("grow_on_band", BenchList.Bands),
        Sources = line.Text("sources", 4000),
        KeepLow = line.WholeOrEmpty("keep_low", 1, 15),
        KeepHigh = line.WholeOrEmpty("keep_high", 1, 15),
        Survival = line.NumberOrEmpty("survival_percent", 5, 99.9m) / 100,
        SeedPrice = line.NumberOrEmpty("seed_price", 0, 1_000_000),
        RetiredOn = known?.RetiredOn,
        Version = (known?.Version ?? 0) + 1,
    };

    protected override IReadOnlyDictionary<string, string> Fields(Crop row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["code"] = row.Code,
        ["name"] = row.Name,
        ["species"] = row.Species,
        ["germination_min_c"] = Cell.Degrees(row.GerminationMinC),
        ["germination_optimum_c"] = Cell.Degrees(row.GerminationOptimumC),
        ["germination_max_c"] = Cell.Degrees(row.GerminationMaxC),
        ["days_to_emergence"] = Cell.Of(row.DaysToEmergence),
        ["weeks_to_transplant"] = Cell.Of(row.WeeksToTransplant),
        ["depth_mm"] = Cell.Of(row.DepthMm),
        ["light"] = Cell.Of(row.Light, Lights),
        ["cells_per_tray"] = Cell.Of(row.CellsPerTray),
        ["seeds_per_cell"] = Cell.Of(row.SeedsPerCell),
        ["move_off_fraction"] = Cell.Of(row.MoveOffFraction),
        ["thin_days_after_emergence"] = Cell.Of(row.ThinDaysAfterEmergence),
        ["feed_from_days"] = Cell.Of(row.FeedFromDays),
        ["feed_every_days"] = Cell.Of(row.FeedEveryDays),
        ["space_days"] = Cell.Of(row.SpaceDays),
        ["hardening_days"] = Cell.Of(row.HardeningDays),
        ["grow_on_band"] = Cell.Of(row.GrowOnBand, BenchList.Bands),
        ["sources"] = row.Sources,
        ["keep_low"] = Cell.Of(row.KeepLow),
        ["keep_high"] = Cell.Of(row.KeepHigh),
        ["survival_percent"] = Cell.Of(row.Survival * 100),
        ["seed_price"] = Cell.Of(row.SeedPrice),
    };

    protected override Guid IdOf(Crop row) => row.Id.Value;

    protected override int VersionOf(Crop row) => row.Version;

    protected override LocalDate? RetiredOn(Crop row) => row.RetiredOn;

    protected override void TakeBack(Crop row) => row.RetiredOn = null;

    protected override IEnumerable<Crop> Sorted(IEnumerable<Crop> all, NurseryRows rows) =>
        all.OrderBy(row => row.Name, StringComparer.Ordinal).ThenBy(row => row.Code, StringComparer.Ordinal);

    /// <summary>Batch codes start with the crop's: once there is a batch, it stays.</summary>
    protected override async Task CheckAsync(
        NurseryDbContext database, CsvRow line, Crop known, Crop read, NurseryRows rows, CancellationToken cancellation)
    {
        var varieties = rows.Varieties.Values.Where(row => row.CropId == known.Id).Select(row => row.Id).ToList();
        if (read.Code != known.Code && await database.Batches.AnyAsync(batch => varieties.Contains(batch.VarietyId), cancellation))
        {
            line.Fail("code", $"{known.Code}: batches are named after it");
        }
    }

    public override Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var crop = rows.Crops[key];
        var varieties = rows.Varieties.Values.Where(row => row.CropId == crop.Id).ToList();
        if (varieties.Where(row => row.RetiredOn is null).Select(row => row.Code).Order(StringComparer.Ordinal).ToList() is { Count: > 0 } live)
        {
            throw new InUse($"Crop {crop.Code} still has varieties: {string.Join(", ", live.Take(5))}. Retire them first");
        }

        if (varieties.Count == 0)
        {
            database.Remove(crop);
            return Task.FromResult(true);
        }

        crop.RetiredOn = rows.Site.Today(rows.Time);
        crop.Version++;
        return Task.FromResult(false);
    }
}
