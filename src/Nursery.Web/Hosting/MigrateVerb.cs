using Nursery.Application.Setup;

namespace Nursery.Web.Hosting;

/// <summary>Brings the database to this build's schema and ends.</summary>
internal static class MigrateVerb
{
    public static async Task<int> RunAsync(string[] args)
    {
        using var logging = LoggerFactory.Create(builder => builder.AddConsole());
        var configuration = new ConfigurationBuilder().AddEnvironmentVariables().AddCommandLine(args).Build();
        await using var database = await OpenDatabase.FindAsync(configuration, logging.CreateLogger("Nursery"), owning: false);
        await database.MigrateAsync();
        Console.WriteLine("The database has this build's schema.");
        return 0;
    }
}
