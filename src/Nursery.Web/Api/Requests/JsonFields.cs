using System.Globalization;
using System.Text.Json;
using NodaTime;
using Nursery.Application.Computed;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Requests;

/// <summary>Takes typed members out of a JSON object and gathers what is wrong with them, each with its value and what is allowed.
/// Members nobody asked for are let be: a client may be newer than this server.</summary>
internal sealed partial class JsonFields
{
    private readonly JsonElement _object;
    private readonly string _path;
    private readonly List<FieldError> _errors;
    private readonly List<FieldError> _outside;
    private readonly TakenInputs _taken;

    private JsonFields(JsonElement element, string path, List<FieldError> errors, List<FieldError> outside, TakenInputs taken) =>
        (_object, _path, _errors, _outside, _taken) = (element, path, errors, outside, taken);

    /// <summary>What was taken so far, with units: of lists how long they are, or their numbers.</summary>
    public IReadOnlyList<HowInput> Inputs => _taken.All;

    /// <exception cref="Malformed">The body is no object.</exception>
    public static JsonFields OfBody(JsonElement body)
    {
        var fields = new JsonFields(body, "", [], [], new());
        if (body.ValueKind != JsonValueKind.Object)
        {
            fields._errors.Add(new FieldError("body", Raw(body), "a JSON object"));
            fields.Done();
        }

        return fields;
    }

    /// <summary>To be called when everything was taken.</summary>
    /// <exception cref="Malformed">Something was wrong.</exception>
    /// <exception cref="InvalidFields">A number was outside its range.</exception>
    public void Done()
    {
        if (_errors is [var first, ..])
        {
            var more = _errors.Count > 1 ? $" (and {_errors.Count - 1} more)" : "";
            throw new Malformed(
                first.Value is null ? $"{first.Field} is missing; it must be: {first.Allowed}{more}" : $"{first.Field} is {ValueShown(first)}; allowed: {first.Allowed}{more}",
                _errors);
        }

        if (_outside.Count > 0)
        {
            throw new InvalidFields(_outside);
        }
    }

    public string Text(string name) => Take(name, TextOf, "text without control characters") ?? "";

    public string? OptionalText(string name) => Has(name) ? Text(name) : null;

    public int Whole(string name) => TakeValue(name, WholeOf, Parsing.AllowedWhole);

    public int? OptionalWhole(string name) => Has(name) ? Whole(name) : null;

    public bool OptionalFlag(string name) => Has(name) && TakeValue(name, FlagOf, "true, false");

    public LocalDate Day(string name) => TakeValue(name, element => TextOf(element) is { } text ? Parsing.Day(text) : null, Parsing.AllowedDay);

    public LocalDate? OptionalDay(string name) => Has(name) ? Day(name) : null;

    public OffsetDateTime Moment(string name) =>
        TakeValue(name, element => TextOf(element) is { } text ? Parsing.Moment(text) : null, Parsing.AllowedMoment);

    public Guid Id(string name) => TakeValue(name, IdOf, Parsing.AllowedId);

    public T Word<T>(string name)
        where T : struct, Enum =>
        TakeValue<T>(name, element => TextOf(element) is { } text && ApiJson.TryWord<T>(text, out var word) ? word : null, ApiJson.Words<T>());

    public T? OptionalWord<T>(string name)
        where T : struct, Enum => Has(name) ? Word<T>(name) : null;

    /// <summary>One of some words.</summary>
    public string? Word(string name, IReadOnlyCollection<string> words) =>
        Take(name, element => TextOf(element) is { } text && words.Contains(text) ? text : null, string.Join(", ", words));

    public IReadOnlyList<Guid>? OptionalIds(string name) =>
        Has(name) ? ListOf(name, int.MaxValue, (element, path) => Or(IdOf(element), element, path, Parsing.AllowedId)) : null;

    /// <summary>Texts of a list, which may be empty or not there.</summary>
    public IReadOnlyList<string> OptionalTexts(string name) =>
        !Has(name) ? [] : ListOf(name, int.MaxValue, (element, path) =>
        {
            if (TextOf(element) is { } text)
            {
                return text;
            }

            _errors.Add(new FieldError(path, Raw(element), "text without control characters"));
            return "";
        });

    public IReadOnlyList<int> Wholes(string name) =>
        ListOf(name, int.MaxValue, (element, path) => Or(WholeOf(element), element, path, Parsing.AllowedWhole));

    /// <summary>An object as it was sent, for a reader of its own.</summary>
    public string? OptionalRaw(string name) => Has(name)
        ? Take(name, element => element.ValueKind == JsonValueKind.Object ? element.GetRawText() : null, "a JSON object")
        : null;

    /// <summary>The objects of a list; each reports its faults here.</summary>
    public IReadOnlyList<JsonFields> Objects(string name, int most) => ListOf(name, most, (element, path) =>
    {
        if (element.ValueKind == JsonValueKind.Object)
        {
            return new JsonFields(element, path + ".", _errors, _outside, new());
        }

        _errors.Add(new FieldError(path, Raw(element), "a JSON object"));
        return new JsonFields(JsonDocument.Parse("{}").RootElement, path + ".", [], [], new());
    });

    public bool Has(string name) => _object.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null;

    public bool IsList(string name) => _object.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Array;

    public bool IsEmptyList(string name) => IsList(name) && _object.GetProperty(name).GetArrayLength() == 0;

    private void Fail(string name, string allowed) =>
        _errors.Add(new FieldError(_path + name, Has(name) ? Raw(_object.GetProperty(name)) : null, allowed));

    private T TakeValue<T>(string name, Func<JsonElement, T?> read, string allowed, string unit = "")
        where T : struct => Has(name) && read(_object.GetProperty(name)) is { } value ? Taken(name, value, unit) : Wrong<T>(name, allowed);

    private T? Take<T>(string name, Func<JsonElement, T?> read, string allowed)
        where T : class => Has(name) && read(_object.GetProperty(name)) is { } value ? Taken(name, value, "") : Wrong<T>(name, allowed);

    private T Taken<T>(string name, T value, string unit)
    {
        _taken.Add(_path + name, Raw(_object.GetProperty(name)), unit);
        return value;
    }

    private T? Wrong<T>(string name, string allowed)
    {
        Fail(name, allowed);
        return default;
    }

    private List<T> ListOf<T>(string name, int most, Func<JsonElement, string, T> read)
    {
        var allowed = most == int.MaxValue ? "a list" : string.Create(CultureInfo.InvariantCulture, $"a list of 1–{most}");
        if (!IsList(name))
        {
            Wrong<string>(name, allowed);
            return [];
        }

        var list = _object.GetProperty(name);
        var length = list.GetArrayLength();
        if (most != int.MaxValue && (length == 0 || length > most))
        {
            _errors.Add(new FieldError(_path + name, string.Create(CultureInfo.InvariantCulture, $"a list of {length}"), allowed));
            return [];
        }

        _taken.AddList(_path + name, list);
        return [.. list.EnumerateArray().Select((element, index) => read(
            element, string.Create(CultureInfo.InvariantCulture, $"{_path}{name}[{index}]")))];
    }

    private T Or<T>(T? value, JsonElement element, string path, string allowed)
        where T : struct
    {
        if (value is null)
        {
            _errors.Add(new FieldError(path, Raw(element), allowed));
        }

        return value ?? default;
    }

    private static int? WholeOf(JsonElement element) =>
        element.ValueKind == JsonValueKind.Number && element.TryGetInt32(out var value) ? value : null;

    private static bool? FlagOf(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => null,
    };

    private static Guid? IdOf(JsonElement element) => TextOf(element) is { } text ? Parsing.Id(text) : null;

    private static string? TextOf(JsonElement element)
    {
        try
        {
            return element.ValueKind == JsonValueKind.String && element.GetString() is { } text && !text.Any(char.IsControl) ? text : null;
        }
        catch (InvalidOperationException)
        {
            // An escaped half of a surrogate pair: no text.
            return null;
        }
    }

    private static string Raw(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => TextOf(element) ?? element.GetRawText(),
        _ => element.GetRawText(),
    };

    private static string ValueShown(FieldError error) => $"'{Problems.ApiFieldError.Cut(error.Value)}'";
}
