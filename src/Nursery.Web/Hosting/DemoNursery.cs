using Hangfire;
using Nursery.Application.Scenario;
using Nursery.Application.Setup;

namespace Nursery.Web.Hosting;

/// <summary>Loads the invented demo nursery into an empty private database, or into a named one when asked with --demo; its invented
/// past follows while the program serves.</summary>
internal static class DemoNursery
{
    /// <summary>Where the files of the demo nursery are; beside the program unless this names another folder.</summary>
    private const string FolderVariable = "NURSERY_SCENARIO";
    private const string Switch = "--demo";
    private const string WithoutPast = "--no-past";

    public static async Task LoadIfWantedAsync(
        IServiceProvider services, OpenDatabase database, string[] args, ILogger logger)
    {
        if (!database.IsPrivate && !args.Contains(Switch))
        {
            return;
        }

        await using var scope = services.CreateAsyncScope();
        var scenario = scope.ServiceProvider.GetRequiredService<LoadScenario>();
        if (!await scenario.IsEmptyAsync())
        {
            return;
        }

        var folder = Environment.GetEnvironmentVariable(FolderVariable) is { Length: > 0 } named
            ? named
            : Path.Combine(AppContext.BaseDirectory, "seed-scenario");
        Directory.CreateDirectory(OpenDatabase.DataFolder);
        var signIns = Path.Combine(OpenDatabase.DataFolder, "demo-sign-in.txt");
        logger.LogInformation("Loading the demo nursery from {Folder}.", folder);
        var result = await scenario.HandleAsync(folder, loaded => SignInFile.WriteAsync(signIns, loaded));
        logger.LogInformation(
            "The demo nursery is loaded: {Batches} batches, {Lines} order lines. How to sign in stands in {File}.",
            result.Batches, result.OrderLines, signIns);

        // Half a minute's work: people can look around meanwhile. A job that was stopped goes on at the next start.
        if (!args.Contains(WithoutPast))
        {
            services.GetRequiredService<IBackgroundJobClient>().Enqueue<PastJob>(job => job.RunAsync(CancellationToken.None));
        }
    }
}
