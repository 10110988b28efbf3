using Microsoft.EntityFrameworkCore;
using Nursery.Application.Crops;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>What an import did, or would do, row by row; crops taken from the starting profiles by code.</summary>
public sealed record SetupImport(
    bool DryRun,
    int Rows,
    int Created,
    int Changed,
    int Unchanged,
    IReadOnlyList<SetupChange> Changes,
    IReadOnlyList<string> StartingCrops,
    IReadOnlyList<FieldError> Errors);

/// <summary>Rows of a list from a CSV file: all or nothing, and the same file twice changes nothing.</summary>
public sealed class ImportSetupList(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    private const int MaxRows = 50_000;

    /// <exception cref="Malformed">The file cannot be read as the CSV of docs/imports.md.</exception>
    /// <exception cref="TooLarge">Too long.</exception>
    public Task<SetupImport> HandleAsync(
        string list, ReadOnlyMemory<byte> file, bool dryRun, Actor actor, CancellationToken cancellation = default)
    {
        var found = lists.Find(list);
        actor.Must(found.Info.Right);
        var (needed, later) = found.Info.FileColumns;
        var lines = CsvText.Read(CsvText.Decode(file.Span), needed, MaxRows, later, CsvRow.Lacking).ToList();
        return databases.RunAsync(database => ImportAsync(database, found, lines, dryRun, actor, cancellation), cancellation);
    }

    private async Task<SetupImport> ImportAsync(
        NurseryDbContext database,
        ISetupList list,
        List<(int Line, IReadOnlyDictionary<string, string> Fields)> lines,
        bool dryRun,
        Actor actor,
        CancellationToken cancellation)
    {
        var rows = await SetupLists.BeginAsync(database, list, actor, starting, time, cancellation);
        var errors = new List<FieldError>();
        var read = lines.Select(line => new CsvRow(null, line.Line, Plain(list.Info, line.Fields), null, errors)).ToList();
        var staged = list.Stage(read, rows, null);
        foreach (var one in staged.Where(row => row.Change.Kind == ChangeKind.Changed))
        {
            await list.CheckAsync(database, one, rows, cancellation);
        }

        var counts = staged.ToLookup(one => one.Change.Kind);
        var result = new SetupImport(
            dryRun,
            lines.Count,
            counts[ChangeKind.Created].Count(),
            counts[ChangeKind.Changed].Count(),
            counts[ChangeKind.Unchanged].Count(),
            [.. staged.Select(one => one.Change)],
            [.. rows.TakenCrops.Select(crop => crop.Code)],
            [.. errors.OrderBy(error => error.Line)]);
        if (errors.Count > 0)
        {
            return result with { Created = 0, Changed = 0, Unchanged = 0, Changes = [], StartingCrops = [] };
        }

        if (!dryRun && result.Created + result.Changed > 0)
        {
            SetupLists.Store(database, list, staged, rows, actor);
            database.Write(rows.Site, actor, time, new Imported(list.Info.Name, result.Rows, result.Created));
            await database.SaveChangesAsync(cancellation);
        }

        return result;
    }

    private static Dictionary<string, string> Plain(SetupListInfo info, IReadOnlyDictionary<string, string> fields) =>
        info.Columns.ToDictionary(
            column => column.Name, column => column.IsText ? CsvLine.Fused(fields[column.Name]) : fields[column.Name]);
}
