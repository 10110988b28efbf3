using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Npgsql;
using NpgsqlTypes;

namespace Nursery.Benchmarks;

/// <summary>The least that could take what people report: reads the rows out of the request and inserts them, each request in one
/// transaction and one round trip, into a table with the columns, indexes and checks of the ledger. No sign-in, no rule, no task.</summary>
internal sealed class BareEndpoint : IAsyncDisposable
{
    public const string Table = "reported";

    private static readonly (string Name, NpgsqlDbType Type)[] Columns =
    [
        ("id", NpgsqlDbType.Uuid), ("site_id", NpgsqlDbType.Uuid), ("batch_id", NpgsqlDbType.Uuid), ("tray_set_id", NpgsqlDbType.Uuid),
        ("bench_id", NpgsqlDbType.Uuid), ("house_id", NpgsqlDbType.Uuid), ("lot_id", NpgsqlDbType.Uuid), ("caused_by", NpgsqlDbType.Uuid),
        ("undo_of", NpgsqlDbType.Uuid), ("who_id", NpgsqlDbType.Uuid), ("who_name", NpgsqlDbType.Text), ("device", NpgsqlDbType.Text),
        ("device_skew_ms", NpgsqlDbType.Integer), ("happened_at", NpgsqlDbType.TimestampTz), ("recorded_at", NpgsqlDbType.TimestampTz),
        ("day", NpgsqlDbType.Date), ("kind", NpgsqlDbType.Text), ("value", NpgsqlDbType.Jsonb), ("sent", NpgsqlDbType.Jsonb),
    ];

    private static readonly string Insert =
        $"INSERT INTO {Table} ({string.Join(", ", Columns.Select(column => column.Name))}) VALUES ({string.Join(", ", Columns.Select((_, at) => $"${at + 1}"))})";

    private readonly WebApplication _app;
    private readonly NpgsqlDataSource _source;

    private BareEndpoint(WebApplication app, NpgsqlDataSource source) => (_app, _source) = (app, source);

    public Uri Address => new(_app.Urls.Single());

    public static async Task<BareEndpoint> StartAsync(string connectionString)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        var source = NpgsqlDataSource.Create(connectionString);
        app.MapPost("/ledger", async (HttpContext http) =>
        {
            using var body = await JsonDocument.ParseAsync(http.Request.Body, default, http.RequestAborted);
            var rows = body.RootElement.GetProperty("rows");
            await using var batch = source.CreateBatch();
            foreach (var row in rows.EnumerateArray())
            {
                batch.BatchCommands.Add(InsertOf(row));
            }

            await batch.ExecuteNonQueryAsync(http.RequestAborted);
            return Results.Json(new { results = rows.EnumerateArray().Select(row => new { id = row.GetProperty("id").GetGuid(), outcome = "applied" }).ToList() });
        });
        await app.StartAsync();
        return new BareEndpoint(app, source);
    }

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        await _source.DisposeAsync();
    }

    private static NpgsqlBatchCommand InsertOf(JsonElement row)
    {
        var command = new NpgsqlBatchCommand(Insert);
        foreach (var (name, type) in Columns)
        {
            command.Parameters.Add(new NpgsqlParameter { NpgsqlDbType = type, Value = ValueOf(row.GetProperty(name), type) });
        }

        return command;
    }

    private static object ValueOf(JsonElement value, NpgsqlDbType type) => (value.ValueKind, type) switch
    {
        (JsonValueKind.Null, _) => DBNull.Value,
        (_, NpgsqlDbType.Uuid) => value.GetGuid(),
        (_, NpgsqlDbType.TimestampTz) => value.GetDateTimeOffset().ToUniversalTime(),
        (_, NpgsqlDbType.Date) => DateOnly.ParseExact(value.GetString()!, "yyyy-MM-dd", null),
        (_, NpgsqlDbType.Integer) => value.GetInt32(),
        (_, NpgsqlDbType.Jsonb) => value.GetRawText(),
        _ => value.GetString()!,
    };
}
