using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;

namespace Nursery.Application.Exports;

/// <summary>The whole ledger as CSV, entry by entry as the database gives them: it never lies in memory at once. Who, when, what, and the
/// entry's whole value as JSON.</summary>
public sealed class ExportLedger(IDbContextFactory<NurseryDbContext> databases)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <returns>What writes the file to a stream, in the order entries were recorded.</returns>
    /// <remarks>In two steps, so that who may not is refused before an answer begins.</remarks>
    public Task<Func<Stream, Task>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        return Task.FromResult<Func<Stream, Task>>(file => WriteAsync(file, actor, cancellation));
    }

    private async Task WriteAsync(Stream file, Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var entries =
            from entry in database.Ledger
            from batch in database.Batches.Where(row => row.Id == entry.BatchId).DefaultIfEmpty()
            from traySet in database.TraySets.Where(row => row.Id == entry.TraySetId).DefaultIfEmpty()
            from bench in database.Benches.Where(row => row.Id == entry.BenchId).DefaultIfEmpty()
            from lot in database.SeedLots.Where(row => row.Id == entry.LotId).DefaultIfEmpty()
            where entry.SiteId == actor.SiteId
            orderby entry.RecordedAt, entry.Id
            select new
            {
                entry.Id,
                entry.Kind,
                entry.Day,
                entry.HappenedAt,
                entry.RecordedAt,
                entry.WhoName,
                entry.Device,
                Batch = batch == null ? null : batch.Code,
                TraySet = traySet == null ? null : traySet.Code,
                Bench = bench == null ? null : bench.Code,
                Lot = lot == null ? null : lot.Code,
                entry.UndoOf,
                entry.CausedBy,
                entry.Value,
            };
        await using var text = new StreamWriter(file, Utf8, bufferSize: 32 * 1024, leaveOpen: true);
        await text.WriteAsync(CsvLine.Of(
            "id", "what", "day", "happened_at", "recorded_at", "who", "device", "batch", "tray_set", "bench", "lot", "undo_of", "caused_by", "value"));
        await foreach (var entry in entries.AsNoTracking().AsAsyncEnumerable().WithCancellation(cancellation))
        {
            await text.WriteAsync(CsvLine.Of(
                entry.Id.Value, entry.Kind, entry.Day, entry.HappenedAt, entry.RecordedAt, entry.WhoName, entry.Device, entry.Batch,
                entry.TraySet, entry.Bench, entry.Lot, entry.UndoOf?.Value, entry.CausedBy?.Value,
                JsonSerializer.Serialize<EntryValue>(entry.Value, Json)));
        }
    }
}
