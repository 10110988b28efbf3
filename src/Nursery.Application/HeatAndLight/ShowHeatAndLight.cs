using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.HeatAndLight;

/// <summary>Heat and light of a site, house by house in walking order.</summary>
/// <param name="Now">When it was asked.</param>
/// <param name="TimeZone">The site's, of the IANA database.</param>
/// <param name="Currency">ISO 4217; costs are in its hundredths.</param>
/// <param name="From">When the courses of the zones begin.</param>
/// <param name="Houses">Houses in use.</param>
/// <param name="Alarms">What lasts, the longest first, and what was over in the last three days.</param>
public sealed record HeatAndLightView(
    Instant Now, string TimeZone, string Currency, Instant From, IReadOnlyList<HouseClimate> Houses, IReadOnlyList<ZoneAlarmItem> Alarms);

/// <summary>A house with its zones, and its light where it is known where the site lies.</summary>
public sealed record HouseClimate(string Code, string Name, IReadOnlyList<ZoneClimate> Zones, HouseLightToday? Light);

public sealed class ShowHeatAndLight(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>How far back the courses go.</summary>
    private static readonly Duration Course = Duration.FromDays(7);

    public async Task<HeatAndLightView> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var houses = await database.Houses.AsNoTracking().Where(house => house.SiteId == site.Id && house.RetiredOn == null)
            .OrderBy(house => house.RoundOrder).ThenBy(house => house.Code).ToListAsync(cancellation);
        var zones = await ZoneClimates.LoadAsync(database, site, houses, now - Course, site.DayOf(now), cancellation);
        var light = await HouseLights.LoadAsync(database, site, houses, site.DayOf(now), cancellation);
        return new HeatAndLightView(
            now,
            site.TimeZone,
            site.Currency,
            now - Course,
            [.. houses.Select(house => new HouseClimate(house.Code, house.Name, [.. zones[house.Id]], light.GetValueOrDefault(house.Id)))],
            await ZoneAlarmItems.LoadAsync(database, site.Id, now, cancellation));
    }
}
