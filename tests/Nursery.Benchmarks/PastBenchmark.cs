using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Nursery.Application.History;
using Nursery.Application.Scenario;
using Nursery.Application.Setup;
using Nursery.Testing.Database;

namespace Nursery.Benchmarks;

/// <summary>Loading the demo's past through the use cases, against the plainest way to keep what people reported: one INSERT of the
/// same row for each, each committed by itself.</summary>
internal static class PastBenchmark
{
    private static readonly TimeSpan Most = TimeSpan.FromSeconds(60);

    public static async Task<Measured> RunAsync()
    {
        var database = new TestDatabase();
        await database.InitializeAsync();
        var services = new ServiceCollection().AddLogging()
            .AddNursery(new NurseryDatabase(database.AppConnectionString, database.OwnerConnectionString)).BuildServiceProvider();
        await using (services)
        {
            await services.GetRequiredService<LoadScenario>().HandleAsync(Scenario());
            var watch = Stopwatch.StartNew();
            var loaded = await services.GetRequiredService<LoadPast>().HandleAsync(LoadPast.DemoSeed, folder: null);
            var ours = watch.Elapsed;
            var (rows, bare) = await InsertAsync(database.OwnerConnectionString);
            if (rows != loaded.Entries)
            {
                throw new InvalidOperationException($"{loaded.Entries} reports were loaded, the baseline stored {rows}: they do not do the same work");
            }

            await database.DisposeAsync();
            return new Measured(
                "past",
                string.Create(CultureInfo.InvariantCulture, $"loading a past of {loaded.Batches} batches and {rows} reports through the use cases"),
                ours,
                bare,
                "an INSERT of each reported row alone",
                "≤ 60 s",
                ours <= Most);
        }
    }

    private static async Task<(int Rows, TimeSpan Took)> InsertAsync(string connectionString)
    {
        await using var source = NpgsqlDataSource.Create(connectionString);
        await using (var make = source.CreateCommand("""
            CREATE TABLE reported (LIKE ledger INCLUDING INDEXES);
            CREATE TABLE reports AS SELECT id FROM ledger WHERE sent IS NOT NULL
            """))
        {
            await make.ExecuteNonQueryAsync();
        }

        var ids = new List<Guid>();
        await using (var read = source.CreateCommand("SELECT id FROM reports ORDER BY id"))
        await using (var rows = await read.ExecuteReaderAsync())
        {
            while (await rows.ReadAsync())
            {
                ids.Add(rows.GetGuid(0));
            }
        }

        await using var connection = await source.OpenConnectionAsync();
        await using var insert = new NpgsqlCommand("INSERT INTO reported SELECT * FROM ledger WHERE id = $1", connection);
        var id = new NpgsqlParameter<Guid>();
        insert.Parameters.Add(id);
        await insert.PrepareAsync();
        var watch = Stopwatch.StartNew();
        foreach (var one in ids)
        {
            id.TypedValue = one;
            await insert.ExecuteNonQueryAsync();
        }

        return (ids.Count, watch.Elapsed);
    }

    private static string Scenario()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Nursery.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("No folder above the benchmarks holds Nursery.sln.");
        }

        return Path.Combine(folder.FullName, "seed-scenario");
    }
}
