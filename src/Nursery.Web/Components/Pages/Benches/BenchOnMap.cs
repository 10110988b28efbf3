using Nursery.Application.Benches;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A bench as it is drawn.</summary>
public sealed class BenchOnMap(HouseBench bench, BenchGeometry geometry)
{
    /// <summary>How far a heat zone's warm border stands out.</summary>
    public const double HeatPad = 7;

    public HouseBench Bench { get; } = bench;

    public BenchGeometry Geometry { get; } = geometry;

    public required string FreePath { get; init; }

    public required string DoublePath { get; init; }

    /// <summary>Around the spaces that are out of use; empty when all can be used.</summary>
    public required string OutPath { get; init; }

    public required IReadOnlyList<ZoneOnMap> Zones { get; init; }

    public required IReadOnlyList<SetOnMap> Sets { get; init; }

    /// <summary>On the bench, but nobody said where.</summary>
    public required IReadOnlyList<TraySetOnBench> Unplaced { get; init; }

    public Label? Name { get; set; }

    public Label? Free { get; set; }
}
