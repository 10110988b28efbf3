using System.Globalization;
using NodaTime.Text;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Orders;

/// <summary>Reads an order file (docs/imports.md) and says what is wrong with each line.</summary>
internal static class OrderFile
{
    private static readonly string[] Columns = ["order", "customer", "variety", "plants", "ready_on"];
    private static readonly string[] MayColumns = ["deliveries", "substitutes"];

    /// <summary>With these two behind, varieties that are not in the list are added to it.</summary>
    private static readonly string[] WithVarieties = [.. Columns, "crop", "variety_name"];

    /// <summary>The most lines of orders one file may have.</summary>
    private const int MaxRows = 50_000;
    private const int MaxPlants = 1_000_000;

    public static (IReadOnlyList<OrderRow> Rows, List<FieldError> Errors) Read(string text)
    {
        var rows = new List<OrderRow>();
        var errors = new List<FieldError>();
        var brings = BringsVarieties(text);
        foreach (var (line, fields) in CsvText.Read(text, brings ? WithVarieties : Columns, MaxRows, MayColumns))
        {
            var before = errors.Count;
            var order = Text(fields, "order", 40, line, errors);
            var customer = Text(fields, "customer", 100, line, errors);
            var variety = Text(fields, "variety", 40, line, errors);
            if (!int.TryParse(fields["plants"], NumberStyles.None, CultureInfo.InvariantCulture, out var plants)
                || plants is < 1 or > MaxPlants)
            {
                errors.Add(new FieldError("plants", fields["plants"], "a whole number, 1–1,000,000", line));
            }

            var day = LocalDatePattern.Iso.Parse(fields["ready_on"]);
            if (!day.Success || day.Value.Year is < 2000 or > 2199)
            {
                errors.Add(new FieldError("ready_on", fields["ready_on"], "a day of the calendar as YYYY-MM-DD, 2000–2199", line));
            }

            var crop = brings ? Text(fields, "crop", 100, line, errors) : null;
            var name = brings ? Text(fields, "variety_name", 100, line, errors) : null;
            var deliveries = AskedDelivery.Read(fields["deliveries"]);
            if (errors.Count == before && (deliveries is null || !AskedDelivery.AreOf(plants, day.Value, deliveries)))
            {
                errors.Add(new FieldError("deliveries", fields["deliveries"], AskedDelivery.Allowed, line));
            }

            if (errors.Count == before)
            {
                rows.Add(new OrderRow(
                    line, order, customer, variety, plants, day.Value, deliveries!, Codes(fields["substitutes"]), crop, name));
            }
        }

        return (rows, errors);
    }

    private static string[] Codes(string text) => text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Whether the header begins with all columns that bring varieties; those that may follow come behind.</summary>
    private static bool BringsVarieties(string text)
    {
        var end = text.AsSpan().IndexOfAny('\r', '\n');
        return ((end < 0 ? text : text[..end]) + ",").StartsWith(string.Join(',', WithVarieties) + ",", StringComparison.Ordinal);
    }

    private static string Text(
        IReadOnlyDictionary<string, string> fields, string field, int longest, int line, List<FieldError> errors)
    {
        var value = fields[field].Trim();
        if (value.Length == 0 || value.Length > longest)
        {
            errors.Add(new FieldError(field, value, $"1–{longest} characters", line));
        }
        else if (value[0] is '=' or '+' or '-' or '@' || value.Any(char.IsControl))
        {
            errors.Add(new FieldError(field, value, "plain text: no formula (= + - @ in front) and no control characters", line));
        }

        return value;
    }
}
