using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Setup.Lists;

/// <summary>What lists have alike; a list itself says how a line becomes a row and back.</summary>
internal abstract class SetupList<T> : ISetupList
    where T : class
{
    public abstract SetupListInfo Info { get; }

    public abstract Dictionary<string, T> Of(NurseryRows rows);

    /// <summary>The row a line says, a new one or <paramref name="known"/> with other values; null when it refers to nothing.</summary>
    public abstract T? Read(CsvRow line, NurseryRows rows, T? known);

    protected abstract IReadOnlyDictionary<string, string> Fields(T row, NurseryRows rows);

    protected abstract Guid IdOf(T row);

    protected abstract int VersionOf(T row);

    protected abstract LocalDate? RetiredOn(T row);

    protected virtual IEnumerable<T> Sorted(IEnumerable<T> all, NurseryRows rows) => all;

    public IReadOnlyList<SetupRow> Rows(NurseryRows rows) =>
    [
        .. Sorted(Of(rows).Values, rows).Select(row => Fields(row, rows) is var fields
            ? new SetupRow(IdOf(row), fields[Info.Key], VersionOf(row), fields, RetiredOn(row))
            : null!),
    ];

    public IReadOnlyList<Staged> Stage(IReadOnlyList<CsvRow> lines, NurseryRows rows, Guid? only)
    {
        var all = Of(rows);
        var known = new Dictionary<CsvRow, (T Row, IReadOnlyDictionary<string, string> Fields)>();
        foreach (var line in lines)
        {
            var key = only is { } id ? all.FirstOrDefault(pair => IdOf(pair.Value) == id).Key : line[Info.Key];
            if (key is not null && all.Remove(key, out var row))
            {
                known[line] = (row, Fields(row, rows));
                line.Keep(known[line].Fields);
            }
        }

        var staged = new List<Staged>();
        foreach (var line in lines)
        {
            var (before, beforeFields) = known.GetValueOrDefault(line);
            if (before is not null && RetiredOn(before) is { } retired)
            {
                line.Fail(Info.Key, $"a {Info.One} in use: this one was retired on {retired.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}");
            }
            else if (Read(line, rows, before) is { } read)
            {
                line.Add(Info.Key, all, read);
                staged.Add(new Staged(line, line[Info.Key], read, before, Compare(line, beforeFields, () => Fields(read, rows))));
            }
        }

        return staged;
    }

    public Staged TakeBack(CsvRow line, string key, NurseryRows rows)
    {
        var all = Of(rows);
        all.Remove(key, out var known);
        var read = Read(line, rows, known) ?? known!;
        TakeBack(read);
        return new Staged(line, key, read, known, new SetupChange(key, ChangeKind.Changed, [new FieldChange("retired_on", Cell.Of(RetiredOn(known!)!.Value), "")], null));
    }

    /// <summary>Of a list whose rows are retired: makes one in use again.</summary>
    protected virtual void TakeBack(T row) => throw new NotSupportedException($"{Info.Title} are never retired");

    public virtual Task LockAsync(NurseryDbContext database, NurseryRows rows, CancellationToken cancellation) => Task.CompletedTask;

    public Task CheckAsync(NurseryDbContext database, Staged staged, NurseryRows rows, CancellationToken cancellation) =>
        staged.Known is T known ? CheckAsync(database, staged.Row, known, (T)staged.Read, rows, cancellation) : Task.CompletedTask;

    protected virtual Task CheckAsync(
        NurseryDbContext database, CsvRow line, T known, T read, NurseryRows rows, CancellationToken cancellation) => Task.CompletedTask;

    public virtual void Store(NurseryDbContext database, Staged staged, NurseryRows rows, Actor actor)
    {
        if (staged.Known is null)
        {
            database.Add(staged.Read);
        }
        else
        {
            database.Entry(staged.Known).CurrentValues.SetValues(staged.Read);
        }
    }

    public abstract Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation);

    private SetupChange Compare(CsvRow line, IReadOnlyDictionary<string, string>? before, Func<IReadOnlyDictionary<string, string>> read)
    {
        var after = read();
        var fields = Info.ColumnNames.Where(column => before is null ? after[column].Length > 0 : before[column] != after[column])
            .Select(column => new FieldChange(column, before?[column], after[column])).ToList();
        var kind = before is null ? ChangeKind.Created : fields.Count > 0 ? ChangeKind.Changed : ChangeKind.Unchanged;
        return new SetupChange(line[Info.Key], kind, fields, line.Line);
    }
}
