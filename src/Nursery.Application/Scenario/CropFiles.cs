using Nursery.Application.Crops;
using Nursery.Application.SeedLots;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Scenario;

/// <summary>Crops, varieties and seed lots, as their files tell them. <see cref="SeedLot.StockSeeds"/> is what was received.</summary>
internal sealed record CropFiles(
    IReadOnlyDictionary<string, Crop> Crops,
    IReadOnlyDictionary<string, Variety> Varieties,
    IReadOnlyDictionary<string, SeedLot> Lots)
{
    internal static IReadOnlyDictionary<string, bool> YesNo => LotList.YesNo;

    public static async Task<CropFiles> ReadAsync(ScenarioFolder folder, NurseryRows rows, CancellationToken cancellation)
    {
        await ScenarioRows.ReadAsync(folder, "crops.csv", new CropList(), rows, cancellation);
        await ScenarioRows.ReadAsync(folder, "varieties.csv", new VarietyList(), rows, cancellation);
        await ScenarioRows.ReadAsync(folder, "seed_lots.csv", new LotList(), rows, cancellation);
        return new CropFiles(rows.Crops, rows.Varieties, rows.Lots);
    }
}
