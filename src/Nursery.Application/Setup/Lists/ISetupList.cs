using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Setup.Lists;

/// <summary>A row read from a file or form, beside the one it changes.</summary>
internal sealed record Staged(CsvRow Row, string Key, object Read, object? Known, SetupChange Change);

/// <summary>How one list is read, written and changed. The same reader serves files, forms and whole scenarios.</summary>
internal interface ISetupList
{
    SetupListInfo Info { get; }

    /// <summary>Keeps planners away while what they rely on changes.</summary>
    Task LockAsync(NurseryDbContext database, NurseryRows rows, CancellationToken cancellation);

    IReadOnlyList<SetupRow> Rows(NurseryRows rows);

    /// <summary>Reads lines in order; each is checked against what is stored and the lines before it.</summary>
    IReadOnlyList<Staged> Stage(IReadOnlyList<CsvRow> lines, NurseryRows rows, Guid? only);

    /// <summary>What only the database can tell: trays that lie where something would change.</summary>
    Task CheckAsync(NurseryDbContext database, Staged staged, NurseryRows rows, CancellationToken cancellation);

    void Store(NurseryDbContext database, Staged staged, NurseryRows rows, Actor actor);

    /// <summary>A retired row as it would be in use again; whatever stands in the way is told by the line.</summary>
    Staged TakeBack(CsvRow line, string key, NurseryRows rows);

    /// <summary>Takes a row out of use, or away when nothing ever used it.</summary>
    /// <returns>Whether it was taken away.</returns>
    /// <exception cref="InUse">Others rely on it.</exception>
    Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation);
}
