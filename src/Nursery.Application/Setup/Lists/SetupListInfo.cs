using Nursery.Domain.People;

namespace Nursery.Application.Setup.Lists;

/// <summary>A list of the setup.</summary>
/// <param name="Name">In addresses: houses.</param>
/// <param name="Title">On pages: Houses.</param>
/// <param name="One">One of it: house.</param>
/// <param name="Right">Needed to see or change it here.</param>
/// <param name="Columns">In the order of its file; the first with <paramref name="Key"/> tells rows apart.</param>
/// <param name="Key">The column that tells rows apart.</param>
public sealed record SetupListInfo(
    string Name, string Title, string One, Right Right, IReadOnlyList<SetupColumn> Columns, string Key = "code")
{
    /// <summary>Whether it is one row that is always there.</summary>
    public bool IsSingle { get; init; }

    /// <summary>Columns every file has, and those it may lack.</summary>
    public (IReadOnlyList<string> Needed, IReadOnlyList<string> Later) FileColumns =>
        ([.. Columns.Where(column => !column.IsLater).Select(column => column.Name)], [.. Columns.Where(column => column.IsLater).Select(column => column.Name)]);

    /// <summary>Every column, empty where nothing is given.</summary>
    internal Dictionary<string, string> Whole(IReadOnlyDictionary<string, string> given) =>
        Columns.ToDictionary(column => column.Name, column => given.GetValueOrDefault(column.Name)?.Trim() ?? "");

    public IReadOnlyList<string> ColumnNames => [.. Columns.Select(column => column.Name)];
}
