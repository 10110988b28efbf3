using NodaTime;

namespace Nursery.Application.Scenario;

/// <summary>A whole scenario folder, read and found right, but for the orders: their own import reads them.</summary>
internal sealed record ScenarioData(SiteFiles Site, CropFiles Crops, string OrdersText, IReadOnlyList<BatchRow> Batches, LocalDate LoadDay)
{
    /// <param name="path">The folder.</param>
    /// <param name="time">Says the load day, in the site's zone.</param>
    /// <param name="cancellation">Cancels.</param>
    public static async Task<ScenarioData> ReadAsync(string path, TimeProvider time, CancellationToken cancellation)
    {
        var folder = new ScenarioFolder(path);
        var site = await SiteFiles.ReadAsync(folder, time, cancellation);
        var crops = await CropFiles.ReadAsync(folder, site.Rows, cancellation);
        var orders = RelativeDay.ResolveLineEnds(await folder.TextAsync("orders.csv", cancellation), folder.LoadDay);
        var batches = await BatchFiles.ReadAsync(folder, site, crops, cancellation);
        return new ScenarioData(site, crops, orders, batches, folder.LoadDay);
    }
}
