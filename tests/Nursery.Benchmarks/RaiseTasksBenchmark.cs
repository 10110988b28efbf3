using System.Diagnostics;
using System.Globalization;
using Npgsql;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;

namespace Nursery.Benchmarks;

/// <summary>Raising the tasks of many batches against the one statement that inserts the same rows out of a table of them.</summary>
internal static class RaiseTasksBenchmark
{
    private const int Batches = 100_000;
    private const int Rounds = 3;
    private const int MostRatio = 2;
    private const string Columns = "id, site_id, kind, batch_id, bench_id, house_id, occurrence, due_on, why, state, done_on, done_by";

    public static async Task<Measured> RunAsync()
    {
        var database = new TestDatabase();
        await database.InitializeAsync();
        try
        {
            await using var nursery = await TestNursery.OpenAsync(database);
            await using var connection = new NpgsqlConnection(database.OwnerConnectionString);
            await connection.OpenAsync();
            await FillAsync(nursery, connection, Batches);
            await nursery.Get<RaiseTasks>().HandleAsync();
            await RunAsync(connection, "CREATE TABLE same_rows AS SELECT * FROM tasks");
            await RunAsync(connection, "ANALYZE");
            var rows = await CountAsync(connection);
            var ours = TimeSpan.MaxValue;
            var baseline = TimeSpan.MaxValue;
            var again = TimeSpan.MaxValue;
            for (var round = 0; round < Rounds; round++)
            {
                ours = Min(ours, await TimeAsync(connection, () => nursery.Get<RaiseTasks>().HandleAsync(), truncate: true, rows));
                again = Min(again, await TimeAsync(connection, () => nursery.Get<RaiseTasks>().HandleAsync(), truncate: false, rows));
                baseline = Min(baseline, await TimeAsync(
                    connection, () => RunAsync(connection, $"INSERT INTO tasks ({Columns}) SELECT {Columns} FROM same_rows"), truncate: true, rows));
            }

            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"again with nothing to change: {again.TotalSeconds:0.00} s"));
            return new Measured(
                "raise-tasks",
                string.Create(CultureInfo.InvariantCulture, $"raising the tasks of {Batches} batches, {rows} rows"),
                ours,
                baseline,
                "one INSERT of the same rows out of a table",
                string.Create(CultureInfo.InvariantCulture, $"≤ {MostRatio} ×"),
                ours <= baseline * MostRatio);
        }
        finally
        {
            await database.DisposeAsync();
        }
    }

    /// <summary>Four batches at different ages, through the application, and copies of them until there are enough.</summary>
    private static async Task FillAsync(TestNursery nursery, NpgsqlConnection connection, int batches)
    {
        await nursery.PlanAsync(nursery.Lettuce, inDays: 3);
        var sown = await nursery.PlanAsync(nursery.Pepper, seeds: 2);
        var watered = await nursery.PlanAsync(nursery.Pepper, seeds: 2);
        var moved = await nursery.PlanAsync(nursery.Pepper, seeds: 2);
        foreach (var batch in new[] { sown, watered, moved })
        {
            await nursery.SowAsync(batch);
        }

        await nursery.DoAsync(watered.Id, TaskKind.FirstWatering);
        await nursery.DoAsync(moved.Id, TaskKind.FirstWatering);
        nursery.Clock.Advance(TimeSpan.FromDays(28));
        await nursery.RecordAsync(new TraysMoved(moved.TraySetCode, new TrayChoice(2, null), "W1", 1));
        await RunAsync(connection, "DELETE FROM tasks WHERE state = 'Done'");
        await RunAsync(connection, string.Create(CultureInfo.InvariantCulture, $"""
            CREATE TEMP TABLE more AS
              SELECT row_number() OVER () AS number, gen_random_uuid() AS new_id, batch.*
              FROM batches AS batch, generate_series(1, {(batches / 4) - 1});
            CREATE TEMP TABLE sets AS
              SELECT more.new_id, more.number, set.* FROM more JOIN tray_shares AS share ON share.batch_id = more.id
              JOIN tray_sets AS set ON set.id = share.tray_set_id;
            UPDATE more SET id = new_id, code = 'M' || number;
            ALTER TABLE more DROP COLUMN new_id, DROP COLUMN number;
            UPDATE sets SET id = new_id, code = 'S' || number;
            ALTER TABLE sets DROP COLUMN number, DROP COLUMN new_id;
            INSERT INTO batches SELECT * FROM more;
            INSERT INTO tray_sets SELECT * FROM sets;
            INSERT INTO tray_shares (tray_set_id, batch_id, cells) SELECT id, id, 144 FROM sets;
            """));
    }

    private static async Task<TimeSpan> TimeAsync(NpgsqlConnection connection, Func<Task> work, bool truncate, long rows)
    {
        if (truncate)
        {
            await RunAsync(connection, "TRUNCATE tasks");
        }

        await RunAsync(connection, "CHECKPOINT");
        var watch = Stopwatch.StartNew();
        await work();
        var taken = watch.Elapsed;
        var made = await CountAsync(connection);
        return made == rows ? taken : throw new InvalidOperationException($"{made} rows instead of {rows}: not the same work");
    }

    private static async Task<int> RunAsync(NpgsqlConnection connection, string sql)
    {
        await using var command = new NpgsqlCommand(sql, connection) { CommandTimeout = 600 };
        return await command.ExecuteNonQueryAsync();
    }

    private static async Task<long> CountAsync(NpgsqlConnection connection)
    {
        await using var command = new NpgsqlCommand("SELECT count(*) FROM tasks WHERE state = 'Open'", connection);
        return (long)(await command.ExecuteScalarAsync())!;
    }

    private static TimeSpan Min(TimeSpan left, TimeSpan right) => left < right ? left : right;
}
