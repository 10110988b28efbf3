using System.Globalization;
using NodaTime;
using Nursery.Application;
using Nursery.Application.Computed;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Requests;

/// <summary>Takes typed values out of an address's query and gathers what is wrong. An empty value counts as not given.</summary>
internal sealed class QueryFields(HttpContext context)
{
    private readonly List<FieldError> _errors = [];
    private readonly List<FieldError> _outside = [];
    private readonly TakenInputs _taken = new();

    /// <summary>What was taken so far, with units.</summary>
    public IReadOnlyList<HowInput> Inputs => _taken.All;

    public string? Text(string name)
    {
        var values = context.Request.Query[name];
        if (values.Count > 1)
        {
            _errors.Add(new FieldError(name, values.ToString(), "given once"));
            return null;
        }

        return string.IsNullOrEmpty(values) ? null : values.ToString();
    }

    public LocalDate? Day(string name) => Take(name, text => Parsing.Day(text), Parsing.AllowedDay);

    public T? Word<T>(string name)
        where T : struct, Enum =>
        Take<T>(name, text => ApiJson.TryWord<T>(text, out var word) ? word : null, ApiJson.Words<T>());

    public decimal? Number(string name) => Take<decimal>(
        name,
        text => decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : null,
        "a number");

    public bool Flag(string name) => Take<bool>(name, text => text switch { "true" => true, "false" => false, _ => null }, "true, false") ?? false;

    /// <summary>At most 24 ids with commas between.</summary>
    public IReadOnlyList<Guid> Ids(string name)
    {
        var ids = (Text(name) ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries).Select(Parsing.Id).ToList();
        if (ids.Count > 24 || ids.Contains(null))
        {
            _errors.Add(new FieldError(name, Text(name) ?? "", $"up to 24 ids with commas between, each {Parsing.AllowedId}"));
            return [];
        }

        return [.. ids.OfType<Guid>()];
    }

    public int? Whole(string name) => Take<int>(
        name,
        text => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number : null,
        "a whole number");

    /// <summary>A number that must be given.</summary>
    public double Number(string name, NumberRange range) => OptionalNumber(name, range) ?? Missing(name, range);

    public double? OptionalNumber(string name, NumberRange range)
    {
        var value = Take<double>(
            name,
            text => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null,
            range.Allowed,
            range.Unit);
        if (value is { } given && !range.Holds(given))
        {
            _outside.Add(new FieldError(name, given.ToString(CultureInfo.InvariantCulture), range.Allowed));
        }

        return value;
    }

    /// <summary>Text that must be given.</summary>
    public string NeededText(string name, string allowed)
    {
        if (Text(name) is { } text)
        {
            _taken.Add(name, text, "");
            return text;
        }

        _errors.Add(new FieldError(name, null, allowed));
        return "";
    }

    /// <summary>limit and cursor, the same on every list. To be taken last: whatever else is wrong is told first.</summary>
    public Paging Paging()
    {
        var limit = Take<int>(
            "limit",
            text => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number : null,
            "a whole number, 1–1000");
        var cursor = Text("cursor");
        Done();

        // Paging takes int.MaxValue as 'everything', which is for screens only.
        return limit > Application.Paging.MaxLimit
            ? throw new InvalidFields("limit", context.Request.Query["limit"], "1–1000")
            : new Paging(limit ?? 100, cursor);
    }

    /// <exception cref="Malformed">Something was wrong.</exception>
    public void Done()
    {
        if (_errors is [var first, ..])
        {
            throw new Malformed(
                first.Value is null
                    ? $"{first.Field} is missing; it must be: {first.Allowed}"
                    : $"{first.Field} is '{Problems.ApiFieldError.Cut(first.Value)}'; allowed: {first.Allowed}",
                _errors);
        }

        if (_outside.Count > 0)
        {
            throw new InvalidFields(_outside);
        }
    }

    private double Missing(string name, NumberRange range)
    {
        if (_errors.TrueForAll(error => error.Field != name))
        {
            _errors.Add(new FieldError(name, null, range.Allowed));
        }

        return 0;
    }

    private T? Take<T>(string name, Func<string, T?> read, string allowed, string unit = "")
        where T : struct
    {
        if (Text(name) is not { } text)
        {
            return null;
        }

        var value = read(text);
        if (value is null)
        {
            _errors.Add(new FieldError(name, text, allowed));
        }
        else
        {
            _taken.Add(name, text, unit);
        }

        return value;
    }
}
