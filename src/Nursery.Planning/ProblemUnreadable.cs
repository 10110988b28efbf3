using System.Globalization;
using System.Text.Json;

namespace Nursery.Planning;

/// <summary>The JSON of a problem or plan cannot be read at all.</summary>
public sealed class ProblemUnreadable(string sentence, Exception? inner = null) : Exception(sentence, inner)
{
    /// <summary>Where in the file it is, and what stands there.</summary>
    internal static string Sentence(JsonException problem)
    {
        var where = problem.Path is { Length: > 1 } path ? path[2..] : "the file";
        var line = problem.LineNumber is { } number
            ? string.Create(CultureInfo.InvariantCulture, $" (line {number + 1})") : "";
        var missing = problem.Message.IndexOf("missing required properties", StringComparison.Ordinal);
        return missing >= 0
            ? $"{where}{line}: {problem.Message[missing..].TrimEnd('.')}; each is required."
            : $"{where}{line}: the value is not of the kind docs/planning-json.md allows there.";
    }
}
