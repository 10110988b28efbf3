using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using System.Text.RegularExpressions;

namespace Nursery.Planning;

/// <summary>What is wrong with a JSON text, as a sentence: the field, what stands there, what is allowed.</summary>
internal static partial class JsonFault
{
    private const int LongestShown = 40;

    public static string Sentence(string json, JsonTypeInfo type, JsonException fault)
    {
        var line = fault.LineNumber is { } number ? string.Create(CultureInfo.InvariantCulture, $" (line {number + 1})") : "";
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(json, new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
        }
        catch (JsonException)
        {
            return $"The file{line} is not JSON; one JSON object is allowed.";
        }

        using (document)
        {
            return Sentence(document.RootElement, type, fault, line);
        }
    }

    private static string Sentence(JsonElement root, JsonTypeInfo type, JsonException fault, string line)
    {
        var (value, info, missing, path) = (root, type, "", "");
        foreach (Match step in Step().Matches(fault.Path ?? ""))
        {
            path += path.Length == 0 ? step.Value.TrimStart('.') : step.Value;
            if (step.Groups["at"].Success)
            {
                var at = int.Parse(step.Groups["at"].Value, CultureInfo.InvariantCulture);
                if (value.ValueKind != JsonValueKind.Array || at >= value.GetArrayLength())
                {
                    break;
                }

                value = value[at];
                info = PlanningJson.Default.GetTypeInfo(info.ElementType!)!;
            }
            else
            {
                var name = step.Groups["name"].Value;
                var property = info.Properties.FirstOrDefault(property => property.Name == name);
                if (property is null || value.ValueKind != JsonValueKind.Object)
                {
                    return $"{path}{line}: there is no such field; allowed are {Names(info)}.";
                }

                if (!value.TryGetProperty(name, out value))
                {
                    missing = name;
                    break;
                }

                info = PlanningJson.Default.GetTypeInfo(property.PropertyType)!;
            }
        }

        var where = path.Length == 0 ? "the file" : path;
        if (missing.Length == 0 && info.Kind == JsonTypeInfoKind.Object && value.ValueKind == JsonValueKind.Object)
        {
            var absent = info.Properties.Where(property => property.IsRequired && !value.TryGetProperty(property.Name, out _))
                .Select(property => property.Name).ToList();
            if (absent.Count > 0)
            {
                return $"{where}{line}: {string.Join(", ", absent)} {(absent.Count == 1 ? "is" : "are")} missing; required there.";
            }

            var unknown = value.EnumerateObject().Select(property => property.Name)
                .FirstOrDefault(name => info.Properties.All(property => property.Name != name));
            if (unknown != null)
            {
                return $"{where}{line}: there is no field \"{unknown}\"; allowed are {Names(info)}.";
            }
        }

        return $"{where}{line}: {Shown(value)} is not allowed; {Allowed(info)} is.";
    }

    private static string Names(JsonTypeInfo info) => string.Join(", ", info.Properties.Select(property => property.Name));

    private static string Shown(JsonElement value)
    {
        var text = value.ValueKind == JsonValueKind.Object ? "an object" : value.ValueKind == JsonValueKind.Array ? "a list" : value.GetRawText();
        return text.Length > LongestShown ? text[..LongestShown] + "…" : text;
    }

    private static string Allowed(JsonTypeInfo info)
    {
        var type = Nullable.GetUnderlyingType(info.Type) ?? info.Type;
        return type switch
        {
            _ when type.IsEnum => "one of " + string.Join(", ", Enum.GetNames(type)),
            _ when type == typeof(string) => "a text",
            _ when type == typeof(int) => "a whole number, -2147483648 to 2147483647,",
            _ when type == typeof(long) => "a whole number",
            _ when type == typeof(double) => "a number",
            _ when type == typeof(DateOnly) => "a date like \"2026-03-01\"",
            _ when info.Kind == JsonTypeInfoKind.Enumerable => "a list",
            _ => "an object with " + Names(info),
        };
    }

    [GeneratedRegex(@"\[(?<at>\d+)\]|\.(?<name>[^.\[]+)")]
    private static partial Regex Step();
}
