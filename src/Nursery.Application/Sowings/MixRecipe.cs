using System.Globalization;
using Nursery.Agronomy;
using Nursery.Agronomy.Mix;

namespace Nursery.Application.Sowings;

/// <summary>What a site stirs into its mix, as people write it: 'gypsum 600, limestone 2000' in grams a cubic meter.</summary>
internal static class MixRecipe
{
    private const double MostGrams = 100_000;

    /// <returns>Null when it cannot be read; none for none.</returns>
    public static IReadOnlyList<MixAmendment>? Read(string? text)
    {
        var amendments = new List<MixAmendment>();
        foreach (var part in (text ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var space = part.LastIndexOf(' ');
            if (space < 1 || !double.TryParse(part[(space + 1)..], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var grams)
                || grams is < 0 or > MostGrams)
            {
                return null;
            }

            amendments.Add(new MixAmendment(part[..space].Trim(), new Mass(grams)));
        }

        return amendments;
    }
}
