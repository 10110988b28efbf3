using NodaTime;

namespace Nursery.Domain.TraySets;

/// <summary>A kind of tray people have: how many cells and how large. Shared by all sites.</summary>
public sealed class TrayType
{
    public required Id<TrayType> Id { get; init; }
    public required string Code { get; set; }
    public required string Name { get; set; }

    /// <summary>1–512.</summary>
    public required int Cells { get; set; }

    /// <summary>Growing mix one cell holds, milliliters; null when nobody measured it.</summary>
    public decimal? CellVolumeMl { get; set; }

    /// <summary>Outer length and width, millimeters.</summary>
    public required decimal LengthMm { get; set; }
    public required decimal WidthMm { get; set; }

    /// <summary>Where the values are from, in words.</summary>
    public required string Sources { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;
}
