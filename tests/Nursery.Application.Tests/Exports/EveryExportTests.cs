using System.Text;
using Npgsql;
using Nursery.Application.Batches;
using Nursery.Application.Exports;
using Nursery.Application.Germination;
using Nursery.Application.HeatZones;
using Nursery.Application.HeatZones.Readings;
using Nursery.Application.Orders;
using Nursery.Application.Rounds;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Ledger;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Exports;

/// <summary>Every file of a nursery whose every name is a formula, read back by PostgreSQL: the names are there, none of them runs.</summary>
public sealed class EveryExportTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>A formula, a comma and a quote: all that CSV and spreadsheets trip over.</summary>
    private const string Formula = "=1+1,\"x\" ";

    private static readonly Dictionary<string, Func<TestNursery, Task<byte[]>>> _files = new()
    {
        ["orders"] = nursery => nursery.Get<ExportOrders>().HandleAsync(nursery.Manager),
        ["batches"] = nursery => nursery.Get<ExportBatches>().HandleAsync(nursery.Manager),
        ["tasks"] = nursery => nursery.Get<ExportTasks>().HandleAsync(nursery.Manager),
        ["reservations"] = nursery => nursery.Get<ExportReservations>().HandleAsync(nursery.Manager),
        ["standings"] = nursery => nursery.Get<ExportStandings>().HandleAsync(nursery.Manager),
        ["setpoints"] = nursery => nursery.Get<ExportSetpoints>().HandleAsync(nursery.Manager),
        ["readings"] = async nursery => await WrittenAsync(await nursery.Get<ExportReadings>().HandleAsync(nursery.Manager)),
        ["ledger"] = async nursery => await WrittenAsync(await nursery.Get<ExportLedger>().HandleAsync(nursery.Manager)),
        ["germination rows"] = nursery => nursery.Get<ExportGermination>().HandleAsync(GerminationLines.Rows, new(GerminationKey.Lot), nursery.Manager),
        ["germination batches"] = nursery => nursery.Get<ExportGermination>().HandleAsync(GerminationLines.Batches, new(GerminationKey.House), nursery.Manager),
        ["germination counts"] = nursery => nursery.Get<ExportGermination>().HandleAsync(GerminationLines.Counts, new(GerminationKey.Lot), nursery.Manager),
    };

    public static TheoryData<string> Files => [.. _files.Keys, .. new SetupLists().All.Select(list => "setup " + list.Name)];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task File_OfNamesThatAreFormulas_ReadsBackAndRunsNone(string name)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await FillAsync(nursery);

        var file = _files.TryGetValue(name, out var print)
            ? await print(nursery)
            : await nursery.Get<ExportSetupList>().HandleAsync(name["setup ".Length..], nursery.Administrator);

        var (header, rows) = await ForeignCsv.ReadAsync(file, database.OwnerConnectionString);
        Assert.NotEmpty(rows);
        Assert.DoesNotContain(header.Concat(rows.SelectMany(row => row)), Runs);
        if (name is not ("setup tray-types" or "setup crops"))
        {
            // Those are of the whole installation: no name of this nursery is in them.
            Assert.Contains(rows.SelectMany(row => row), field => field.StartsWith("'" + Formula, StringComparison.Ordinal));
        }
    }

    /// <summary>What a spreadsheet would run; a number below nothing is none.</summary>
    private static bool Runs(string field) =>
        field.Length > 0 && field[0] is '=' or '+' or '-' or '@' or '\t' or '\r' && !decimal.TryParse(field, System.Globalization.CultureInfo.InvariantCulture, out _);

    private static async Task<byte[]> WrittenAsync(Func<Stream, Task> write)
    {
        using var file = new MemoryStream();
        await write(file);
        return file.ToArray();
    }

    private async Task FillAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 5, nursery.Today, nursery.Today.PlusDays(20));
        await nursery.SowAsync(batch);
        await nursery.Get<SetSetpoint>().HandleAsync(new("Z60", 16, nursery.Today.PlusDays(1), nursery.Today.PlusDays(3)), nursery.HeadGrower);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, 60, null, null, false));
        await nursery.Get<ImportSetupList>().HandleAsync("people", Encoding.UTF8.GetBytes($"user,name,role\nada-{nursery.At.Site.Code},Ada,staff\n"), false, nursery.Administrator);
        await nursery.ImportAsync($"A-1,{nursery.At.Site.Code} Growers,{nursery.Pepper.Code},20,{nursery.Today.PlusDays(60):uuuu-MM-dd}");

        // Past what imports let through: names may come from elsewhere.
        await using var connection = new NpgsqlConnection(database.OwnerConnectionString);
        await connection.OpenAsync();
        foreach (var statement in new[]
        {
            "UPDATE sites SET name = @formula || name WHERE id = @site",
            "UPDATE houses SET name = @formula || name, code = left(@formula || code, 20) WHERE site_id = @site",
            "UPDATE benches SET name = @formula || name, code = left(@formula || code, 20) WHERE site_id = @site",
            "INSERT INTO zone_readings (zone_id, at, site_id, temperature_c) SELECT id, timestamptz '2026-03-05 12:00Z', site_id, 20 FROM heat_zones WHERE site_id = @site",
            "UPDATE heat_zones SET code = left(@formula || code, 20) WHERE site_id = @site",
            "UPDATE customers SET name = @formula || name WHERE id IN (SELECT customer_id FROM orders WHERE site_id = @site)",
            "UPDATE people SET display_name = @formula || display_name WHERE id IN (SELECT person_id FROM person_sites WHERE site_id = @site)",
            "UPDATE varieties SET name = @formula || name WHERE id = @variety",
            "UPDATE seed_lots SET code = @formula || code, supplier = @formula WHERE variety_id = @variety",
        })
        {
            await using var command = new NpgsqlCommand(statement, connection);
            command.Parameters.AddWithValue("formula", Formula);
            command.Parameters.AddWithValue("site", nursery.At.Site.Id.Value);
            command.Parameters.AddWithValue("variety", nursery.Pepper.Id.Value);
            Assert.True(await command.ExecuteNonQueryAsync() > 0, statement);
        }
    }
}
