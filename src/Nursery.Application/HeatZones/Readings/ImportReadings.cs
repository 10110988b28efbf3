using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatZones.Readings;

/// <summary>What an import of readings did, or would do: rows read, readings new, lines at fault.</summary>
public sealed record ReadingsImport(bool DryRun, int Rows, int Created, IReadOnlyList<FieldError> Errors);

/// <summary>Readings from a logger's CSV file: all or nothing, and the same file twice adds nothing.</summary>
public sealed class ImportReadings(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    internal static readonly string[] Columns = ["zone", "at", "temperature_c"];

    private const int MaxRows = 200_000;

    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");

    /// <exception cref="Malformed">The file cannot be read as the CSV of docs/imports.md.</exception>
    /// <exception cref="TooLarge">Too long.</exception>
    public Task<ReadingsImport> HandleAsync(ReadOnlyMemory<byte> file, bool dryRun, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        var lines = CsvText.Read(CsvText.Decode(file.Span), Columns, MaxRows).ToList();
        return databases.RunAsync(
            async database =>
            {
                var site = await database.SiteOfAsync(actor, cancellation);
                var errors = new List<FieldError>();
                var rows = lines.Select(line => Row(new CsvRow(null, line.Line, line.Fields, null, errors), site, errors)).OfType<ZoneReadingRow>().ToList();
                var created = await ReadingWriting.StoreAsync(database, site, rows, errors, dryRun, time, cancellation);
                return new ReadingsImport(dryRun, lines.Count, created, [.. errors.Select(Named).OrderBy(error => error.Line)]);
            },
            cancellation);
    }

    private static ZoneReadingRow? Row(CsvRow line, Site site, List<FieldError> errors)
    {
        var before = errors.Count;
        var celsius = decimal.Round(line.Number("temperature_c", ZoneReading.LeastC, ZoneReading.MostC), 2);
        var at = At(line["at"], site);
        if (at is null)
        {
            line.Fail("at", "a moment such as 2026-03-14T09:30:00-05:00, or the site's own time as 2026-03-14 09:30");
        }

        return errors.Count == before ? new ZoneReadingRow("", line.Line, CsvLine.Fused(line["zone"]), at!.Value, celsius) : null;
    }

    /// <summary>In the hour that comes twice in autumn the site's own time means the first.</summary>
    private static Instant? At(string text, Site site) =>
        OffsetDateTimePattern.Rfc3339.Parse(text) is { Success: true, Value: var moment }
            ? moment.ToInstant()
            : Local.Parse(text) is { Success: true, Value: var local } ? site.Zone.AtLeniently(local).ToInstant() : null;

    /// <summary>By the columns of the file.</summary>
    private static FieldError Named(FieldError error) => error.Field == "temperatureC" ? error with { Field = "temperature_c" } : error;
}
