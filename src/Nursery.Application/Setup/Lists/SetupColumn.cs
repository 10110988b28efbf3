namespace Nursery.Application.Setup.Lists;

/// <summary>A column of a list: in its file and on its form.</summary>
/// <param name="Name">As in the file's first line.</param>
/// <param name="Label">As on the form.</param>
/// <param name="Kind">What its cells say.</param>
public sealed record SetupColumn(string Name, string Label, ColumnKind Kind = ColumnKind.Text)
{
    public bool MayBeEmpty { get; init; }

    /// <summary>Came after files without it were written: a file may lack it, and then says nothing of it. Such columns stand last.</summary>
    public bool IsLater { get; init; }

    /// <summary>The words it may hold.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];

    /// <summary>The list whose codes it holds.</summary>
    public string? Of { get; init; }

    public string? Hint { get; init; }

    /// <summary>Words people type could start a formula in a spreadsheet; numbers cannot.</summary>
    public bool IsText => Kind is ColumnKind.Text or ColumnKind.LongText or ColumnKind.Code;
}
