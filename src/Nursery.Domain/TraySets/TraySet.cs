using Nursery.Domain.Sites;

namespace Nursery.Domain.TraySets;

/// <summary>Trays of one type that stand and move together, numbered from 1. Usually one batch fills a tray set;
/// small varieties share one.</summary>
public sealed class TraySet
{
    public required Id<TraySet> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required string Code { get; init; }
    public required int Trays { get; set; }
    public required int CellsPerTray { get; set; }

    /// <summary>What kind of tray; null when nobody said.</summary>
    public Id<TrayType>? TrayTypeId { get; init; }

    /// <summary>Tray spaces one tray takes; 1 is the standard tray.</summary>
    public decimal Footprint { get; set; } = 1;

    /// <summary>Tray spaces that <paramref name="trays"/> of its trays take.</summary>
    public int SpacesFor(int trays) => (int)Math.Ceiling(trays * Footprint);
}
