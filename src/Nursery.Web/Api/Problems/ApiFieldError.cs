using System.Text.Json.Serialization;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Problems;

/// <summary>One field at fault: its name, its value (cut when it is long) and what is allowed; the line, when it is a file's.</summary>
internal sealed record ApiFieldError(
    string Field,
    string? Value,
    string Allowed,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? Line = null)
{
    private const int LongestValue = 100;

    public static ApiFieldError From(FieldError error) => new(error.Field, Cut(error.Value), error.Allowed, error.Line);

    public static string? Cut(string? value) => value is { Length: > LongestValue } ? value[..LongestValue] + "…" : value;
}
