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

    public void Fail(string field, string? value, string allowed) => _errors.Add(new FieldError(field, value, allowed));

    public void Done()
    {
        if (_errors.Count > 0)
        {
            throw new InvalidFields(_errors);
        }
    }
}
