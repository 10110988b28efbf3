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

    /// <summary>Chance asked for that a batch gives the plants wanted, 0.5–0.9999; this and what follows: null is the default of the sowing terms.</summary>
    public decimal? SowingConfidence { get; set; }

    /// <summary>Chance that a whole tray is lost, 0–0.5.</summary>
    public decimal? TrayLoss { get; set; }

    /// <summary>A thousand seeds where the crop says nothing else, in the currency, as all prices here: they are rates, not amounts.</summary>
    public decimal? SeedPrice { get; set; }

    /// <summary>One tray with its mix and its bench space.</summary>
    public decimal? TrayPrice { get; set; }

    /// <summary>An hour of a pair of hands.</summary>
    public decimal? HourPrice { get; set; }

    /// <summary>A tray a day on heat.</summary>
    public decimal? HeatPrice { get; set; }

    /// <summary>What is stirred into the mix, as 'gypsum 600, limestone 2000' in grams a cubic meter; null is nothing.</summary>
    public string? MixAmendments { get; set; }

    /// <summary>A bale or bag of mix as sold, liters.</summary>
    public decimal? MixPackageLiters { get; set; }

    /// <summary>What a bale gives when loosened ÷ its volume as sold, 1–3.</summary>
    public decimal? MixExpansion { get; set; }

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
