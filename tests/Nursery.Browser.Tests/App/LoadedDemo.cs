using Nursery.Testing.Database;

namespace Nursery.Browser.Tests.App;

/// <summary>
/// The demo nursery, loaded once a test process by the program itself, and closed: every class begins with a copy of its database, which
/// takes a fraction of loading it again.
/// </summary>
internal sealed record LoadedDemo(TestDatabase Database, IReadOnlyList<string> SignIns)
{
    private static readonly Lazy<Task<LoadedDemo>> _once = new(LoadAsync);

    public static Task<LoadedDemo> Once => _once.Value;

    private static async Task<LoadedDemo> LoadAsync()
    {
        var data = Directory.CreateTempSubdirectory("nursery-browser-demo-").FullName;
        try
        {
            var database = new TestDatabase();
            await database.InitializeAsync();
            using var process = await AppProcess.StartAsync(
                new Uri($"http://127.0.0.1:{AppProcess.FreePort()}/"), ["--demo", "--no-past"], AppProcess.Variables(database, data));
            await StartJobs.EndedAsync(database);
            await process.StopAsync();
            await database.CloseAsync();
            return new(database, await File.ReadAllLinesAsync(Path.Combine(data, "demo-sign-in.txt")));
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }
}
