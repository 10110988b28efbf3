using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Data.Tests.Schema;

/// <summary>What the database keeps true whatever a program asks, asked in plain SQL after the migrations.</summary>
public sealed class PromisesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Reservations_Exclusion_StandsInTheCatalog()
    {
        var definition = (string)(await OwnerAsync(
            "SELECT pg_get_constraintdef(oid) FROM pg_constraint WHERE conrelid = 'reservations'::regclass AND contype = 'x'"))!;

        Assert.Equal(
            "EXCLUDE USING gist (bench_id WITH =, spaces WITH &&, days WITH &&) DEFERRABLE", definition.Replace(" INITIALLY IMMEDIATE", "", StringComparison.Ordinal));
        Assert.Equal(
            "true/false",
            await OwnerAsync("SELECT condeferrable::text || '/' || condeferred::text FROM pg_constraint WHERE conrelid = 'reservations'::regclass AND contype = 'x'"));
        Assert.Equal(1L, await OwnerAsync("SELECT count(*) FROM pg_constraint WHERE conrelid = 'reservations'::regclass AND contype = 'x'"));
    }

    [Fact]
    public async Task Reservations_Capacity_FollowsTheBenchByForeignKey() => Assert.Equal(
        "FOREIGN KEY (bench_id, capacity) REFERENCES benches(id, capacity) ON UPDATE CASCADE ON DELETE RESTRICT",
        await OwnerAsync("SELECT pg_get_constraintdef(oid) FROM pg_constraint WHERE conname = 'fk_reservations_benches'"));

    [Fact]
    public async Task Reservations_Overlap_IsRefusedAndNeighborsAreNot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (first, second) = await TwoAsync(nursery);

        await RefusedAsync(PostgresErrorCodes.ExclusionViolation, $"UPDATE reservations SET spaces = '[2,6)' WHERE id = '{second}'");
        await OwnerAsync($"UPDATE reservations SET spaces = '[5,9)' WHERE id = '{second}'");
        await OwnerAsync($"UPDATE reservations SET spaces = (SELECT spaces FROM reservations WHERE id = '{first}'), days = daterange(upper(days), upper(days) + 3) WHERE id = '{second}'");
    }

    [Fact]
    public async Task Reservations_SwapInOneTransaction_WorksDeferredOnly()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (first, second) = await TwoAsync(nursery);
        var one = $"UPDATE reservations SET spaces = '[9,13)' WHERE id = '{first}'; ";
        var two = $"UPDATE reservations SET spaces = '[1,5)' WHERE id = '{second}'; ";

        await RefusedAsync(PostgresErrorCodes.ExclusionViolation, $"BEGIN; {one}{two}COMMIT");
        await OwnerAsync($"BEGIN; SET CONSTRAINTS ex_reservations_space DEFERRED; {one}{two}COMMIT");

        Assert.Equal("[9,13)", await OwnerAsync($"SELECT spaces::text FROM reservations WHERE id = '{first}'"));
        Assert.Equal("[1,5)", await OwnerAsync($"SELECT spaces::text FROM reservations WHERE id = '{second}'"));
        await RefusedAsync(
            PostgresErrorCodes.ExclusionViolation, $"BEGIN; SET CONSTRAINTS ex_reservations_space DEFERRED; {two}{one}UPDATE reservations SET spaces = '[2,6)' WHERE id = '{first}'; COMMIT");
    }

    [Theory]
    [InlineData("spaces = 'empty'")]
    [InlineData("days = 'empty'")]
    [InlineData("trays = 'empty'")]
    [InlineData("spaces = '[0,4)'")]
    [InlineData("spaces = '[38,42)'")]
    public async Task Reservations_EmptyOrBeyondTheBench_IsRefused(string change)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (first, _) = await TwoAsync(nursery);

        await RefusedAsync(PostgresErrorCodes.CheckViolation, $"UPDATE reservations SET {change} WHERE id = '{first}'");
        await OwnerAsync($"UPDATE reservations SET spaces = '[37,41)' WHERE id = '{first}'");
    }

    [Fact]
    public async Task Benches_Capacity_GrowsAndNeverShrinksBelowAReservation()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (first, second) = await TwoAsync(nursery);
        await OwnerAsync($"UPDATE benches SET capacity = 60 WHERE id = '{nursery.At.Warm.Id}'");
        Assert.Equal(60, await OwnerAsync($"SELECT capacity FROM reservations WHERE id = '{first}'"));
        await OwnerAsync($"UPDATE benches SET capacity = 12 WHERE id = '{nursery.At.Warm.Id}'");

        await RefusedAsync(PostgresErrorCodes.CheckViolation, $"UPDATE benches SET capacity = 11 WHERE id = '{nursery.At.Warm.Id}'");
        await RefusedAsync(PostgresErrorCodes.ForeignKeyViolation, $"UPDATE reservations SET capacity = 99 WHERE id = '{second}'");
        await RefusedAsync(PostgresErrorCodes.ForeignKeyViolation, $"DELETE FROM benches WHERE id = '{nursery.At.Warm.Id}'");
    }

    [Theory]
    [InlineData("UPDATE ledger SET who_name = 'x'")]
    [InlineData("DELETE FROM ledger")]
    [InlineData("TRUNCATE ledger")]
    public async Task Ledger_AnyChange_IsRefusedToTheAppAndToTheOwner(string sql)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var before = await OwnerAsync("SELECT count(*) FROM ledger");
        Assert.NotEqual(0L, before);

        await RefusedAsync(PostgresErrorCodes.InsufficientPrivilege, sql, database.AppConnectionString);
        await RefusedAsync(PostgresErrorCodes.RestrictViolation, sql);

        Assert.Equal(before, await OwnerAsync("SELECT count(*) FROM ledger"));
    }

    [Fact]
    public async Task AppRole_Schema_CannotBeChanged()
    {
        await RefusedAsync(PostgresErrorCodes.InsufficientPrivilege, "CREATE TABLE public.mine (id int)", database.AppConnectionString);
        await RefusedAsync(PostgresErrorCodes.InsufficientPrivilege, "DROP TRIGGER ledger_append_only ON ledger", database.AppConnectionString);
        await RefusedAsync(PostgresErrorCodes.InsufficientPrivilege, "DELETE FROM migrations_history", database.AppConnectionString);
    }

    [Fact]
    public async Task Tasks_OneKindAndBatch_HaveOneOpenRow()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        Assert.Equal(TaskState.Open, (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).State);
        var copy = "INSERT INTO tasks (id, site_id, kind, batch_id, occurrence, due_on, why, state) "
            + $"SELECT gen_random_uuid(), site_id, kind, batch_id, {{0}}, due_on, why, '{{1}}' FROM tasks WHERE batch_id = '{batch.Id}'";

        await RefusedAsync(PostgresErrorCodes.UniqueViolation, string.Format(CultureInfo.InvariantCulture, copy, 2, "Open"));
        await RefusedAsync(PostgresErrorCodes.UniqueViolation, string.Format(CultureInfo.InvariantCulture, copy, 1, "Done"));
        await OwnerAsync(string.Format(CultureInfo.InvariantCulture, copy, 2, "Done"));
    }

    [Fact]
    public async Task Numbers_BelowWhatTheyMean_AreRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);

        await RefusedAsync(PostgresErrorCodes.CheckViolation, $"UPDATE seed_lots SET stock_seeds = -1 WHERE id = '{nursery.PepperLot.Id}'");
        await RefusedAsync(PostgresErrorCodes.CheckViolation, $"UPDATE benches SET capacity = 0 WHERE id = '{nursery.At.Cool.Id}'");
        await RefusedAsync(PostgresErrorCodes.CheckViolation, $"UPDATE tray_sets SET trays = 0 WHERE code = '{batch.TraySetCode}'");
    }

    [Fact]
    public async Task HeatZones_Setpoint_KeepsEveryWholeFahrenheit()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var open = await nursery.DatabaseAsync();
        var zone = await open.HeatZones.SingleAsync(row => row.Id == nursery.At.Zones[0].Id);
        for (var fahrenheit = 32; fahrenheit <= 120; fahrenheit++)
        {
            zone.SetpointC = Agronomy.Temperature.FromFahrenheit(fahrenheit).Celsius;
            await open.SaveChangesAsync();
            var stored = await open.HeatZones.Where(row => row.Id == zone.Id).Select(row => row.SetpointC).SingleAsync();
            Assert.Equal(fahrenheit, Math.Round(new Agronomy.Temperature(stored).Fahrenheit));
        }
    }

    /// <summary>Two reservations of four spaces on the warm bench, 1–4 and 9–12, on the same days.</summary>
    private static async Task<(Guid First, Guid Second)> TwoAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var (from, to) = (nursery.Today, nursery.Today.PlusDays(10));
        return ((await nursery.ReserveAsync(batch, "W1", 1, from, to)).Id, (await nursery.ReserveAsync(batch, "W1", 9, from, to)).Id);
    }

    private async Task RefusedAsync(string sqlState, string sql, string? connectionString = null)
    {
        var refused = await Assert.ThrowsAsync<PostgresException>(() => RunAsync(connectionString ?? database.OwnerConnectionString, sql));
        Assert.Equal(sqlState, refused.SqlState);
    }

    private Task<object?> OwnerAsync(string sql) => RunAsync(database.OwnerConnectionString, sql);

    private static async Task<object?> RunAsync(string connectionString, string sql)
    {
        // Not pooled: a statement that failed inside BEGIN … COMMIT leaves its connection in a dead transaction.
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connectionString) { Pooling = false }.ConnectionString);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements stand in this file.
        command.CommandText = sql;
#pragma warning restore CA2100
        return await command.ExecuteScalarAsync();
    }
}
