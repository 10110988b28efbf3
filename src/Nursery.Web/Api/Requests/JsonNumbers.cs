using System.Globalization;
using System.Text.Json;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Requests;

/// <summary>Numbers with their ranges, and objects within objects.</summary>
internal sealed partial class JsonFields
{
    /// <summary>A number; one outside its range is gathered and told when all were taken.</summary>
    public double Number(string name, NumberRange range) =>
        Checked(TakeValue(name, NumberOf, range.Allowed, range.Unit), name, range);

    public double? OptionalNumber(string name, NumberRange range) => Has(name) ? Number(name, range) : null;

    public int Whole(string name, NumberRange range) =>
        (int)Checked(TakeValue(name, WholeOf, $"{Parsing.AllowedWhole}, {range.Allowed}", range.Unit), name, range);

    public int? OptionalWhole(string name, NumberRange range) => Has(name) ? Whole(name, range) : null;

    public IReadOnlyList<double> Numbers(string name, int most, NumberRange range) => ListOf(name, most, (element, path) =>
    {
        var value = NumberOf(element);
        if (value is { } number && !range.Holds(number))
        {
            _outside.Add(new FieldError(path, Raw(element), range.Allowed));
        }

        return Or(value, element, path, range.Allowed);
    });

    public IReadOnlyList<int> Wholes(string name, int most, NumberRange range) => ListOf(name, most, (element, path) =>
    {
        var value = WholeOf(element);
        if (value is { } number && !range.Holds(number))
        {
            _outside.Add(new FieldError(path, Raw(element), range.Allowed));
        }

        return Or(value, element, path, $"{Parsing.AllowedWhole}, {range.Allowed}");
    });

    /// <summary>The objects of a list that may be empty or left out.</summary>
    public IReadOnlyList<JsonFields> OptionalObjects(string name, int most) => Has(name) && !IsEmptyList(name) ? Objects(name, most) : [];

    /// <summary>An object within this one; its faults are told here.</summary>
    public JsonFields Object(string name)
    {
        if (Has(name) && _object.GetProperty(name) is { ValueKind: JsonValueKind.Object } inner)
        {
            return new JsonFields(inner, $"{_path}{name}.", _errors, _outside, _taken);
        }

        Fail(name, "a JSON object");
        return new JsonFields(JsonDocument.Parse("{}").RootElement, "", [], [], new());
    }

    public JsonFields? OptionalObject(string name) => Has(name) ? Object(name) : null;

    /// <summary>Says that a member contradicts another.</summary>
    public void Refuse(string name, string allowed) =>
        _outside.Add(new FieldError(_path + name, Has(name) ? Raw(_object.GetProperty(name)) : null, allowed));

    private double Checked(double value, string name, NumberRange range)
    {
        // What could not be read is told already.
        if (!range.Holds(value) && Has(name) && _object.GetProperty(name).ValueKind == JsonValueKind.Number)
        {
            _outside.Add(new FieldError(_path + name, value.ToString(CultureInfo.InvariantCulture), range.Allowed));
        }

        return value;
    }

    private static double? NumberOf(JsonElement element) =>
        element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out var value) ? value : null;
}
