using System.Globalization;
using Nursery.Application.History;
using Nursery.Application.Setup;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Hosting;

/// <summary>past load: gives the demo nursery an invented season of history. Refused where there is no demo.</summary>
internal static class PastVerb
{
    private const int Refused = 2;
    private const string Usage = "Nursery.Web past load [--seed N] [--folder F]";

    public static async Task<int> RunAsync(string[] args)
    {
        var configuration = new ConfigurationBuilder().AddEnvironmentVariables().AddCommandLine(args.Skip(1).ToArray()).Build();
        var seed = LoadPast.DemoSeed;
        if (args is not ["load", ..]
            || (configuration["seed"] is { } asked && !ulong.TryParse(asked, NumberStyles.None, CultureInfo.InvariantCulture, out seed)))
        {
            await Console.Error.WriteLineAsync(Usage);
            return Refused;
        }

        using var logging = LoggerFactory.Create(builder => builder.AddConsole().SetMinimumLevel(LogLevel.Warning));
        await using var database = await OpenDatabase.FindAsync(configuration, logging.CreateLogger("Nursery"), owning: false);
        await database.MigrateAsync();
        await using var services = new ServiceCollection().AddLogging().AddNursery(database.Where).BuildServiceProvider();
        try
        {
            var folder = configuration["folder"] ?? PastJob.Folder;
            var loaded = await services.GetRequiredService<LoadPast>().HandleAsync(seed, folder);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{loaded.Batches} batches and {loaded.Entries} reports of an invented past are loaded; {loaded.BatchesThere} batches were there."));
            Console.WriteLine($"The truth behind them stands in {folder}");
            return 0;
        }
        catch (Refusal refusal)
        {
            await Console.Error.WriteLineAsync(refusal.Message);
            return Refused;
        }
    }
}
