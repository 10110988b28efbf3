using System.Text.RegularExpressions;

namespace Nursery.Web.Components.Asking;

/// <summary>Field names of requests (cellsPerTray, allocations.plants) as words; columns of files stay as they are.</summary>
public static partial class FieldWords
{
    public static string Of(string field) =>
        Humps().Replace(field[(field.LastIndexOf('.') + 1)..], match => " " + match.Value.ToLowerInvariant());

    [GeneratedRegex("(?<=[a-z])[A-Z]")]
    private static partial Regex Humps();
}
