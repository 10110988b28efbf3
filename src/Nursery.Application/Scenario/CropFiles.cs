using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Scenario;

/// <summary>Crops, varieties and seed lots, as their files tell them. <see cref="SeedLot.StockSeeds"/> is what was received.</summary>
internal sealed record CropFiles(
    IReadOnlyDictionary<string, Crop> Crops,
    IReadOnlyDictionary<string, Variety> Varieties,
    IReadOnlyDictionary<string, SeedLot> Lots)
{
    public static IReadOnlyDictionary<string, Band> Bands { get; } =
        new Dictionary<string, Band> { ["warm"] = Band.Warm, ["cool"] = Band.Cool };

    public static async Task<CropFiles> ReadAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        var crops = await CropsAsync(folder, time, cancellation);
        var varieties = new Dictionary<string, Variety>();
        foreach (var row in await folder.ReadAsync("varieties.csv", "code,crop,name", cancellation))
        {
            if (row.Of("crop", crops, "a crop") is { } crop)
            {
                row.Add("code", varieties, new Variety
                {
                    Id = NewId.Of<Variety>(time),
                    CropId = crop.Id,
                    Code = row.Text("code", 40),
                    Name = row.Text("name"),
                });
            }
        }

        folder.Done();
        return new CropFiles(crops, varieties, await LotsAsync(folder, varieties, time, cancellation));
    }

    private static async Task<Dictionary<string, Crop>> CropsAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        var crops = new Dictionary<string, Crop>();
        var rows = await folder.ReadAsync(
            "crops.csv",
            "code,name,species,germination_min_c,germination_optimum_c,germination_max_c,days_to_emergence,weeks_to_transplant,depth_mm," +
            "light,cells_per_tray,seeds_per_cell,move_off_fraction,thin_days_after_emergence,hardening_days,grow_on_band,sources",
            cancellation);
        foreach (var row in rows)
        {
            var crop = CropOf(row, time);
            if (crop.Code.Length != 2 || !crop.Code.All(char.IsAsciiLetterUpper))
            {
                row.Fail("code", "two capital letters");
            }

            if (crop.GerminationMinC >= crop.GerminationOptimumC || crop.GerminationOptimumC >= crop.GerminationMaxC)
            {
                row.Fail("germination_optimum_c", "above the minimum and below the maximum");
            }

            row.Add("code", crops, crop);
        }

        folder.Done();
        return crops;
    }

    private static Crop CropOf(CsvRow row, TimeProvider time) => new()
    {
        Id = NewId.Of<Crop>(time),
        Code = row.Text("code", 2),
        Name = row.Text("name"),
        Species = row.Text("species"),
        GerminationMinC = row.Number("germination_min_c", -10, 60),
        GerminationOptimumC = row.Number("germination_optimum_c", -10, 60),
        GerminationMaxC = row.Number("germination_max_c", -10, 60),
        DaysToEmergence = row.Whole("days_to_emergence", 1, 365),
        WeeksToTransplant = row.Whole("weeks_to_transplant", 1, 104),
        DepthMm = row.Number("depth_mm", 0, 200),
        Light = row.Word("light", new Dictionary<string, LightNeed>
        {
            ["needsLight"] = LightNeed.NeedsLight,
            ["indifferent"] = LightNeed.Indifferent,
            ["dark"] = LightNeed.Dark,
        }),
        CellsPerTray = row.Whole("cells_per_tray", 1, 512),
        SeedsPerCell = row.Whole("seeds_per_cell", 1, 50),
        MoveOffFraction = row.Number("move_off_fraction", 0, 1),
        ThinDaysAfterEmergence = row.WholeOrEmpty("thin_days_after_emergence", 0, 365),
        HardeningDays = row.Whole("hardening_days", 0, 365),
        GrowOnBand = row.Word("grow_on_band", Bands),
        Sources = row.Text("sources", 4000),
    };

    private static async Task<Dictionary<string, SeedLot>> LotsAsync(
        ScenarioFolder folder, Dictionary<string, Variety> varieties, TimeProvider time, CancellationToken cancellation)
    {
        var lots = new Dictionary<string, SeedLot>();
        var rows = await folder.ReadAsync(
            "seed_lots.csv",
            "code,variety,supplier,supplier_lot,form,treated,label_germination_percent,tested_on,seeds,seeds_per_gram",
            cancellation);
        foreach (var row in rows)
        {
            if (row.Of("variety", varieties, "a variety") is not { } variety)
            {
                continue;
            }

            row.Add("code", lots, new SeedLot
            {
                Id = NewId.Of<SeedLot>(time),
                VarietyId = variety.Id,
                Code = row.Text("code", 40),
                Supplier = row.Text("supplier"),
                SupplierLot = row.Text("supplier_lot"),
                Form = row.Word("form", new Dictionary<string, SeedForm>
                {
                    ["raw"] = SeedForm.Raw,
                    ["pelleted"] = SeedForm.Pelleted,
                    ["primed"] = SeedForm.Primed,
                }),
                Treated = row.Word("treated", YesNo),
                LabelGermination = row.Number("label_germination_percent", 0.01m, 100) / 100,
                TestedOn = row.Day("tested_on"),
                SeedsPerGram = row.Number("seeds_per_gram", 0.0001m, 1_000_000),
                StockSeeds = row.Whole("seeds", 1, 100_000_000),
            });
        }

        folder.Done();
        return lots;
    }

    internal static IReadOnlyDictionary<string, bool> YesNo { get; } = new Dictionary<string, bool> { ["yes"] = true, ["no"] = false };
}
