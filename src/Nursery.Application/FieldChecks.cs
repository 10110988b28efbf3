using System.Globalization;
using Nursery.Domain.Refusals;

namespace Nursery.Application;

/// <summary>Gathers everything wrong with a request, so that people mend it once.</summary>
internal sealed class FieldChecks
{
    private readonly List<FieldError> _errors = [];

    public FieldChecks Range(string field, int value, int low, int high)
    {
        if (value < low || value > high)
        {
            Fail(field, value.ToString(CultureInfo.InvariantCulture), string.Create(CultureInfo.InvariantCulture, $"{low}–{high}"));
        }

        return this;
    }

    /// <summary>Words people type: some, not too many, nothing that cannot be printed.</summary>
    public FieldChecks Text(string field, string? value, int longest)
    {
        var trimmed = value?.Trim() ?? "";
        if (trimmed.Length == 0 || trimmed.Length > longest || trimmed.Any(char.IsControl))
        {
            Fail(field, value, string.Create(CultureInfo.InvariantCulture, $"1–{longest} characters, no control characters"));
        }

        return this;
    }

    public void Fail(string field, string? value, string allowed) => _errors.Add(new FieldError(field, value, allowed));

    public void Done()
    {
        if (_errors.Count > 0)
        {
            throw new InvalidFields(_errors);
        }
    }
}
