using System.Globalization;

namespace Nursery.Domain;

/// <summary>A contiguous run of tray spaces on a bench (or of trays in a tray set), counted from 1.</summary>
/// <param name="First">The first space, 1 or more.</param>
/// <param name="Count">How many, 1 or more.</param>
public readonly record struct SpaceRun(int First, int Count)
{
    /// <summary>The last space of the run.</summary>
    public int Last => First + Count - 1;

    public bool Overlaps(SpaceRun other) => First <= other.Last && other.First <= Last;

    public bool Contains(SpaceRun other) => First <= other.First && other.Last <= Last;

    public override string ToString() => Count == 1
        ? First.ToString(CultureInfo.InvariantCulture)
        : string.Create(CultureInfo.InvariantCulture, $"{First}–{Last}");
}
