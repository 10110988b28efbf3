using Nursery.Application.Setup;

namespace Nursery.Web.Hosting;

/// <summary>Starts the database, brings it up to date, loads the demo nursery into an empty private one, and serves.</summary>
internal static class ServeVerb
{
    public static async Task<int> RunAsync(string[] args)
    {
        using var logging = LoggerFactory.Create(builder => builder.AddConsole());
        var logger = logging.CreateLogger("Nursery");
        var configuration = new ConfigurationBuilder().AddEnvironmentVariables().AddCommandLine(args).Build();
        await using var database = await OpenDatabase.FindAsync(configuration, logger, owning: true);
        await database.MigrateAsync();
        await using var app = NurseryHost.Build(args, database.Where);
        await DemoNursery.LoadIfWantedAsync(app.Services, database, args, logger);
        app.Services.GetRequiredService<StartupState>().MarkReady();
        await app.StartAsync();
        foreach (var address in app.Urls)
        {
            Console.WriteLine($"Nursery is ready at {address}");
        }

        await app.WaitForShutdownAsync();
        return 0;
    }
}
