using System.Globalization;
using System.Text.RegularExpressions;

namespace Nursery.Web.Components.Pages.Papers;

/// <summary>
/// What is typed for a line of a round sheet: "12" done; "12-18" those and all between done; "12 c 65" counted 65 seedlings up;
/// "12 c 65/72" counted in 72 cells; "12 n not up yet" not yet, and why; "12 x" taken out of the list again.
/// </summary>
public sealed partial record TypedLine(int Line, int? Seedlings = null, int? Cells = null, string? NotYet = null, bool Out = false)
{
    /// <returns>The lines, or what is wrong in a sentence.</returns>
    public static (IReadOnlyList<TypedLine> Lines, string? Wrong) Read(string text, int lastLine)
    {
        var found = Shape().Match(text);
        if (!found.Success)
        {
            return ([], $"‘{text.Trim()}’ is not a line: type its number, and after it nothing, c and a count, or n and why not");
        }

        var first = Number(found.Groups["first"]) ?? 0;
        var last = Number(found.Groups["last"]) ?? first;
        if (first < 1 || last < first || last > lastLine)
        {
            return ([], $"The sheet has the lines 1–{lastLine.ToString(CultureInfo.InvariantCulture)}");
        }

        var said = new TypedLine(
            first,
            Number(found.Groups["count"]),
            Number(found.Groups["cells"]),
            found.Groups["why"] is { Success: true } why ? why.Value.Trim() : null,
            found.Groups["out"].Success);
        return said.Seedlings is not null && last > first
            ? ([], "A count is of one line")
            : ([.. Enumerable.Range(first, last - first + 1).Select(line => said with { Line = line })], null);
    }

    public string Words => this switch
    {
        { NotYet: { } why } => "not yet: " + why,
        { Seedlings: { } up, Cells: { } cells } => string.Create(CultureInfo.InvariantCulture, $"done, {up} up in {cells} cells"),
        { Seedlings: { } up } => string.Create(CultureInfo.InvariantCulture, $"done, {up} up"),
        _ => "done",
    };

    private static int? Number(Group group) =>
        group.Success && int.TryParse(group.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    [GeneratedRegex(
        @"^\s*(?<first>\d{1,6})(\s*-\s*(?<last>\d{1,6}))?(\s*(c\s*(?<count>\d{1,7})(\s*/\s*(?<cells>\d{1,7}))?|n\s+(?<why>\S.*)|(?<out>x)))?\s*$",
        RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture)]
    private static partial Regex Shape();
}
