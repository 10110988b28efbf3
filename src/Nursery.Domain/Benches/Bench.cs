using NodaTime;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Benches;

/// <summary>A bench, counted in spaces of the site's standard tray (1020 footprint, 27.7 × 54.4 cm).
/// Spaces are numbered from 1 down each column of <see cref="Rows"/>, then along the bench.</summary>
public sealed class Bench
{
    public required Id<Bench> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<House> HouseId { get; init; }
    public required string Code { get; set; }
    public required string Name { get; set; }
    public required BenchKind Kind { get; set; }

    /// <summary>Null on germination benches, whose zones say the temperature.</summary>
    public Band? Band { get; set; }
    public required int LengthCm { get; set; }
    public required int WidthCm { get; set; }

    /// <summary>Its corner nearest the house's origin.</summary>
    public required int XCm { get; set; }
    public required int YCm { get; set; }

    /// <summary>Tray spaces, 1 or more. May grow; never shrinks below what was ever reserved.</summary>
    public required int Capacity { get; set; }

    /// <summary>Tray spaces across the bench, 1 or more.</summary>
    public required int Rows { get; set; }
    public required int RoundOrder { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;
}
