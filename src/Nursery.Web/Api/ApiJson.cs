using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Serialization.SystemTextJson;

namespace Nursery.Web.Api;

/// <summary>How the API writes JSON: camelCase members and words, days as 2026-03-14, moments as RFC 3339.</summary>
internal static class ApiJson
{
    public static JsonSerializerOptions Options { get; } = Applied(new JsonSerializerOptions(JsonSerializerDefaults.Web));

    public static JsonSerializerOptions Applied(JsonSerializerOptions options)
    {
        options.NumberHandling = JsonNumberHandling.Strict;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
        return options.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);
    }

    /// <summary>How an enum's value is spelt.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());

    /// <summary>The value a word stands for; exactly as spelt, and never a number.</summary>
    public static bool TryWord<T>(string word, out T value)
        where T : struct, Enum
    {
        foreach (var candidate in Enum.GetValues<T>())
        {
            if (Word(candidate) == word)
            {
                value = candidate;
                return true;
            }
        }

        value = default;
        return false;
    }

    public static string Words<T>()
        where T : struct, Enum => string.Join(", ", Enum.GetValues<T>().Select(Word));
}
