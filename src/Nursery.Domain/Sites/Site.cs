using NodaTime;

namespace Nursery.Domain.Sites;

/// <summary>One nursery site: the scope of houses, batches, tasks and order lines.</summary>
public sealed class Site
{
    public required Id<Site> Id { get; init; }
    public required string Code { get; set; }
    public required string Name { get; set; }

    /// <summary>IANA time zone; every day in the product is a day of this zone.</summary>
    public required string TimeZone { get; set; }
    public required Units Units { get; set; }

    /// <summary>ISO 4217 code; amounts are stored in its minor units.</summary>
    public required string Currency { get; set; }

    /// <summary>Where tags point to (https://…); null prints codes only.</summary>
    public string? PublicAddress { get; set; }

    /// <summary>Days a batch is planned to be ready before its order's day, 0–60: the room for a resow.</summary>
    public required int MarginDays { get; set; }
    public required PaperSize Paper { get; set; }

    /// <summary>People at work, Monday to Sunday; null plans with <see cref="WorkWeek.Assumed"/>.</summary>
    public int[]? Hands { get; set; }

    /// <summary>Minutes each of them has for the round, Monday to Sunday; null plans with <see cref="WorkWeek.Assumed"/>.</summary>
    public int[]? HandMinutes { get; set; }

    /// <summary>Where the site lies, ° north and ° east; null when nobody said.</summary>
    public decimal? Latitude { get; set; }
    public decimal? Longitude { get; set; }

    /// <summary>Price of a kWh in minor units of the currency (14.5 cents); null when nobody said.</summary>
    public decimal? KwhPrice { get; set; }

    /// <summary>Parts of water to one of concentrate (100 for 1:100); null feeds without an injector.</summary>
    public int? InjectorRatio { get; set; }

    /// <summary>Nitrogen of the feed as on its label, %; null when nobody said.</summary>
    public decimal? FeedNitrogenPercent { get; set; }

    /// <summary>Set for an invented demo nursery: shown on every page and paper.</summary>
    public bool IsDemo { get; init; }
    public int Version { get; set; } = 1;

    /// <summary>The site-local day of an instant.</summary>
    public LocalDate DayOf(Instant at) => at.InZone(Zone).Date;

    public LocalDate Today(TimeProvider time) => DayOf(Instant.FromDateTimeOffset(time.GetUtcNow()));

    /// <summary>Whose hands there are, as set or as assumed.</summary>
    public WorkWeek WorkWeek => Hands is { } hands && HandMinutes is { } minutes ? new WorkWeek(hands, minutes) : WorkWeek.Assumed;

    public DateTimeZone Zone => DateTimeZoneProviders.Tzdb[TimeZone];
}
