using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Scenario;
using Nursery.Domain.Refusals;

namespace Nursery.Application;

/// <summary>One line of a file, or what a form says, by the file's columns. Whatever it cannot read it adds to the errors and answers with a stand-in, so that one
/// run tells everything wrong; nobody uses the values of a reading that had errors.</summary>
/// <param name="file">Named in errors, when several files are read together.</param>
/// <param name="line">Its line in the file; null for a form.</param>
/// <param name="fields">Texts by column.</param>
/// <param name="loadDay">The day days may be counted from (+35); null reads calendar days only.</param>
/// <param name="errors">Takes what is wrong.</param>
internal sealed class CsvRow(
    string? file, int? line, IReadOnlyDictionary<string, string> fields, LocalDate? loadDay, List<FieldError> errors)
{
    /// <summary>In a column the file lacks; no file can hold it.</summary>
    public const string Lacking = "\0";

    private IReadOnlyDictionary<string, string> _known = new Dictionary<string, string>();

    public int? Line => line;

    public string this[string field] => fields[field] is var text && text == Lacking ? _known.GetValueOrDefault(field, "") : text;

    /// <summary>Of columns the file lacks, what is known stays.</summary>
    public void Keep(IReadOnlyDictionary<string, string> known) => _known = known;

    public void Fail(string field, string allowed) => errors.Add(Error(field, allowed));

    /// <exception cref="InvalidFields">Always.</exception>
    [DoesNotReturn]
    public void FailNow(string field, string allowed) =>
        throw new InvalidFields([Error(field, allowed)]);

    public bool IsEmpty(string field) => this[field].Length == 0;

    public string Text(string field, int longest = 100)
    {
        var value = this[field];
        if (string.IsNullOrWhiteSpace(value) || value.Length > longest || value.Any(char.IsControl))
        {
            Fail(field, string.Create(CultureInfo.InvariantCulture, $"1–{longest} characters, no control characters"));
        }

        return value;
    }

    public int Whole(string field, int low, int high)
    {
        if (int.TryParse(this[field], NumberStyles.None, CultureInfo.InvariantCulture, out var value) && value >= low && value <= high)
        {
            return value;
        }

        Fail(field, string.Create(CultureInfo.InvariantCulture, $"a whole number, {low}–{high}"));
        return low;
    }

    public int? WholeOrEmpty(string field, int low, int high) => IsEmpty(field) ? null : Whole(field, low, high);

    public decimal Number(string field, decimal low, decimal high)
    {
        const NumberStyles style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        if (decimal.TryParse(this[field], style, CultureInfo.InvariantCulture, out var value) && value >= low && value <= high)
        {
            return value;
        }

        Fail(field, string.Create(CultureInfo.InvariantCulture, $"a number, {low}–{high}"));
        return low;
    }

    public decimal? NumberOrEmpty(string field, decimal low, decimal high) => IsEmpty(field) ? null : Number(field, low, high);

    /// <summary>A calendar day, or days from the load day with a sign in front.</summary>
    public LocalDate Day(string field)
    {
        if (loadDay is { } start && RelativeDay.Resolve(this[field], start) is { } day)
        {
            return day;
        }

        var parsed = LocalDatePattern.Iso.Parse(this[field]);
        if (parsed.Success && parsed.Value.Year is >= 2000 and <= 2199)
        {
            return parsed.Value;
        }

        Fail(field, "a day of the calendar as YYYY-MM-DD, 2000–2199" + (loadDay is null ? "" : ", or days from the load day such as +35"));
        return loadDay ?? new LocalDate(2000, 1, 1);
    }

    public LocalTime Time(string field)
    {
        var parsed = LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(this[field]);
        if (parsed.Success)
        {
            return parsed.Value;
        }

        Fail(field, "a time as HH:mm, 00:00–23:59");
        return LocalTime.Midnight;
    }

    public T Word<T>(string field, IReadOnlyDictionary<string, T> words)
    {
        if (words.TryGetValue(this[field], out var value))
        {
            return value;
        }

        Fail(field, string.Join(", ", words.Keys));
        return words.Values.First();
    }

    /// <summary>What a code of an earlier file stands for; null after an error.</summary>
    public T? Of<T>(string field, IReadOnlyDictionary<string, T> known, string what)
        where T : class
    {
        if (known.TryGetValue(this[field], out var value))
        {
            return value;
        }

        Fail(field, $"the code of {what}");
        return null;
    }

    /// <summary>Keeps a row under its key, once.</summary>
    public void Add<T>(string field, Dictionary<string, T> rows, T row)
    {
        if (!rows.TryAdd(this[field], row))
        {
            Fail(field, "each once in the file");
        }
    }

    private FieldError Error(string field, string allowed) =>
        new(file is null ? field : $"{field} in {file}", this[field], allowed, line);
}
