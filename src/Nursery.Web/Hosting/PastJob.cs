using Nursery.Application.History;
using Nursery.Application.Setup;

namespace Nursery.Web.Hosting;

/// <summary>Gives the demo its invented past, once; run again it finds it there.</summary>
internal sealed partial class PastJob(LoadPast load, ILogger<PastJob> logger)
{
    /// <summary>Where the season and its truth are kept as files.</summary>
    public static string Folder => Path.Combine(OpenDatabase.DataFolder, "demo-past");

    public async Task RunAsync(CancellationToken cancellation)
    {
        var loaded = await load.HandleAsync(LoadPast.DemoSeed, Folder, cancellation);
        Said(loaded.Batches, loaded.Entries, Folder);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "The demo has an invented past: {Batches} batches, {Entries} reports. Its truth stands in {Folder}.")]
    private partial void Said(int batches, int entries, string folder);
}
