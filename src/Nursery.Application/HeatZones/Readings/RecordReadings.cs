using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.HeatZones.Readings;

/// <summary>What a probe in the mix of a zone read, °C −20 to 60.</summary>
public sealed record ReportedReading(string Zone, OffsetDateTime At, decimal TemperatureC);

/// <summary>What came of readings: how many were sent, and how many were new.</summary>
public sealed record RecordedReadings(int Readings, int Created);

/// <summary>Takes what probes read: all or nothing, and the same readings twice add nothing.</summary>
public sealed class RecordReadings(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>A logger that was away for a month sends 2,000 in a go.</summary>
    public const int Most = 10_000;

    /// <exception cref="InvalidFields">A zone there is not, a moment to come, another value for a moment that has one.</exception>
    public Task<RecordedReadings> HandleAsync(IReadOnlyList<ReportedReading> readings, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        new FieldChecks().Range("readings", readings.Count, 1, Most).Done();
        var rows = readings.Select((reading, index) => new ZoneReadingRow(
            FormattableString.Invariant($"readings[{index}]."), null, reading.Zone, reading.At.ToInstant(), decimal.Round(reading.TemperatureC, 2))).ToList();
        return databases.RunAsync(
            async database =>
            {
                var errors = new List<FieldError>();
                var site = await database.SiteOfAsync(actor, cancellation);
                var created = await ReadingWriting.StoreAsync(database, site, rows, errors, dryRun: false, time, cancellation);
                return errors.Count == 0 ? new RecordedReadings(rows.Count, created) : throw new InvalidFields(errors);
            },
            cancellation);
    }
}
