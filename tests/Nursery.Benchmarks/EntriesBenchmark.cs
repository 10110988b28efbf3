using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Npgsql;
using Nursery.Domain.Tasks;
using Nursery.Testing.Nurseries;

namespace Nursery.Benchmarks;

/// <summary>What people report on a round, through the real program from four tablets at once, against a bare endpoint that inserts the
/// very same rows. Ours signs in, checks, folds the batches, closes and raises tasks, and remembers what it answered.</summary>
internal static class EntriesBenchmark
{
    private const int Batches = 200;
    private const int Rounds = 12;
    private const int Tablets = 4;

    /// <summary>As many as a tablet sends in one request.</summary>
    private const int Together = 50;
    private const double LeastRatio = 0.5;

    public static Task<Measured> TogetherAsync() => RunAsync("entries", Together);

    public static Task<Measured> OneByOneAsync() => RunAsync("entries-single", 1);

    private static async Task<Measured> RunAsync(string name, int together)
    {
        await using var served = await ServedNursery.OpenAsync(Batches);
        await using var bare = await BareEndpoint.StartAsync(served.OwnerConnectionString);
        using var ours = await served.WithKeyAsync();
        using var plain = new HttpClient { BaseAddress = bare.Address };
        await using var source = NpgsqlDataSource.Create(served.OwnerConnectionString);
        await RunSqlAsync(source, $"CREATE TABLE {BareEndpoint.Table} (LIKE ledger INCLUDING ALL, FOREIGN KEY (site_id) REFERENCES sites (id))");
        var (oursBest, bareBest, entries) = (TimeSpan.MaxValue, TimeSpan.MaxValue, 0);
        for (var round = 0; round < Rounds; round++)
        {
            // In turn, so that both meet the same machine; and never what was sent before.
            var sent = await EntriesAsync(served.Nursery, round);
            entries = sent.Count;
            oursBest = Shorter(oursBest, await SendAsync(ours, "/api/v1/ledger", "entries", sent, together));
            var rows = await RowsAsync(source, sent);
            bareBest = Shorter(bareBest, await SendAsync(plain, "/ledger", "rows", rows, together));
            var same = await CountAsync(source, $"SELECT count(*) FROM ledger AS theirs JOIN {BareEndpoint.Table} AS bare USING (id) WHERE theirs::text = bare::text");
            if (same != entries * (round + 1L))
            {
                throw new InvalidOperationException($"{same} rows are the same in both instead of {entries * (round + 1)}: not the same work");
            }
        }

        var (perSecond, barePerSecond) = (entries / oursBest.TotalSeconds, entries / bareBest.TotalSeconds);
        return new Measured(
            name,
            string.Create(CultureInfo.InvariantCulture, $"{entries} reports of a round from {Tablets} tablets, {together} a request: {perSecond:0} a second"),
            oursBest,
            bareBest,
            string.Create(CultureInfo.InvariantCulture, $"a bare endpoint inserting the same rows, {together} a request: {barePerSecond:0} a second"),
            "half as many a second, ≤ 2 ×",
            perSecond >= LeastRatio * barePerSecond);
    }

    /// <summary>Half of them work done, as on a round; then counts, put-offs, losses.</summary>
    private static async Task<List<JsonNode>> EntriesAsync(TestNursery nursery, int round)
    {
        var open = (await nursery.TasksAsync()).Where(task => task is { State: TaskState.Open, BatchId: not null }).ToList();
        var batches = open.Where(task => task.Kind == TaskKind.Water).Select(task => task.BatchId!.Value.Value).ToList();
        var at = nursery.Clock.GetUtcNow().AddMinutes(round - 60);
        var water = open.Where(task => task.Kind == TaskKind.Water).Select(task => Entry("done", ("taskId", task.Id.Value.ToString())));
        var counts = batches.Where((_, number) => number % 2 == 0).Select((batch, number) => Entry(
            "count", ("batchId", batch.ToString()), ("what", "seedlings"), ("value", 20 + (number % 50)), ("trays", 1), ("sample", true)));
        var putOff = open.Where(task => task.Kind == TaskKind.EmergenceCheck).Where((_, number) => number % 4 == 1)
            .Select(task => Entry("notYet", ("taskId", task.Id.Value.ToString()), ("reason", "not up yet")));
        var losses = batches.Where((_, number) => number % 4 == 3)
            .Select(batch => Entry("loss", ("batchId", batch.ToString()), ("plants", 1), ("cause", "damping off")));
        // Batch after batch, as people walk: each tablet has its own benches.
        var places = batches.Select((batch, place) => (batch, place)).ToDictionary(row => row.batch.ToString(), row => row.place);
        var batchOf = open.ToDictionary(task => task.Id.Value.ToString(), task => task.BatchId!.Value.Value.ToString());
        return
        [
            .. water.Concat(counts).Concat(putOff).Concat(losses).OrderBy(entry => places.GetValueOrDefault(
                (string?)entry["batchId"] ?? batchOf[(string)entry["taskId"]!], int.MaxValue)),
        ];

        JsonNode Entry(string kind, params (string Name, JsonNode Value)[] members)
        {
            var entry = new JsonObject
            {
                ["id"] = Guid.CreateVersion7(at).ToString(),
                ["happenedAt"] = at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
                ["kind"] = kind,
            };
            foreach (var (name, value) in members)
            {
                entry[name] = value;
            }

            return entry;
        }
    }

    /// <summary>Every tablet sends its share, request after request.</summary>
    private static async Task<TimeSpan> SendAsync(HttpClient client, string path, string member, List<JsonNode> all, int together)
    {
        var tablets = all.Chunk((all.Count + Tablets - 1) / Tablets)
            .Select(share => share.Chunk(together).Select(some => new JsonObject { [member] = new JsonArray([.. some]) }.ToJsonString()).ToList()).ToList();
        var watch = Stopwatch.StartNew();
        await Task.WhenAll(tablets.Select(TabletAsync));
        return watch.Elapsed;

        async Task TabletAsync(List<string> requests)
        {
            foreach (var request in requests)
            {
                using var content = new StringContent(request, Encoding.UTF8, "application/json");
                using var answer = await client.PostAsync(new Uri(path, UriKind.Relative), content);
                var results = (await answer.EnsureSuccessStatusCode().Content.ReadFromJsonAsync<JsonObject>())!["results"]!.AsArray();
                if (results.FirstOrDefault(result => (string?)result!["outcome"] != "applied") is { } refused)
                {
                    throw new InvalidOperationException($"Not every entry was taken: {refused.ToJsonString()}");
                }
            }
        }
    }

    private static async Task<List<JsonNode>> RowsAsync(NpgsqlDataSource source, List<JsonNode> sent)
    {
        await using var command = source.CreateCommand("SELECT to_jsonb(ledger)::text FROM ledger JOIN unnest($1) WITH ORDINALITY AS sent (id, at) USING (id) ORDER BY at");
        command.Parameters.AddWithValue(sent.ConvertAll(entry => Guid.Parse((string)entry["id"]!)).ToArray());
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<JsonNode>();
        while (await reader.ReadAsync())
        {
            rows.Add(JsonNode.Parse(reader.GetString(0))!);
        }

        return rows;
    }

    private static async Task RunSqlAsync(NpgsqlDataSource source, string sql)
    {
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }

    private static async Task<long> CountAsync(NpgsqlDataSource source, string sql)
    {
        await using var command = source.CreateCommand(sql);
        return (long)(await command.ExecuteScalarAsync())!;
    }

    private static TimeSpan Shorter(TimeSpan one, TimeSpan other) => one < other ? one : other;
}
