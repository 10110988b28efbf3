using System.Globalization;
using Nursery.Domain;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Rounds;

/// <summary>Some trays of a tray set: so many (the first ones), or these numbers.</summary>
public sealed record TrayChoice(int? HowMany, IReadOnlyList<int>? Numbers)
{
    public int Count => HowMany ?? Numbers!.Distinct().Count();

    /// <summary>The trays as one run.</summary>
    /// <exception cref="InvalidFields">More trays than the set has, or numbers with a gap.</exception>
    public SpaceRun AsRun(int traysInSet)
    {
        if (HowMany is null && Numbers is null)
        {
            throw new InvalidFields("trays", null, "how many, or tray numbers");
        }

        var run = HowMany is { } many
            ? new SpaceRun(1, many)
            : new SpaceRun(Numbers!.DefaultIfEmpty(0).Min(), Numbers!.Distinct().Count());
        var gap = Numbers is not null && Numbers.DefaultIfEmpty(0).Max() != run.Last;
        return run.Count < 1 || run.First < 1 || run.Last > traysInSet || gap
            ? throw new InvalidFields("trays", Shown(), string.Create(
                CultureInfo.InvariantCulture, $"how many, 1–{traysInSet}, or tray numbers of that range without a gap"))
            : run;
    }

    private string Shown() => HowMany is { } many
        ? many.ToString(CultureInfo.InvariantCulture)
        : string.Join(", ", Numbers!);
}
