using NodaTime;

namespace Nursery.Domain.Tasks;

/// <summary>Where a batch grows and with what, as its watering and feeding go by.</summary>
/// <param name="CellsPerTray">Of its trays.</param>
/// <param name="Latitude">Of the site, ° north; null when nobody said.</param>
/// <param name="CoverShare">Light its house's cover lets through, 0–1; null when nobody said.</param>
/// <param name="AirC">What the air of its house is kept at, °C; null when nobody said.</param>
/// <param name="Waterings">Days of the last month on which it was watered.</param>
/// <param name="Marks">How the mix of its bench was seen in the last month, in order.</param>
/// <param name="InjectorRatio">Of the site; null feeds without one.</param>
/// <param name="FeedNitrogenPercent">On the label of the site's feed; null when nobody said.</param>
public sealed record CareGround(
    int CellsPerTray,
    decimal? Latitude = null,
    decimal? CoverShare = null,
    decimal? AirC = null,
    IReadOnlyList<LocalDate>? Waterings = null,
    IReadOnlyList<SurfaceMark>? Marks = null,
    int? InjectorRatio = null,
    decimal? FeedNitrogenPercent = null)
{
    /// <summary>How far back waterings and marks teach how a bench dries, days.</summary>
    public const int LearnDays = 30;
}
