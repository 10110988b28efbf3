using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Papers;

/// <summary>A stretch of bench some trays of a set take.</summary>
/// <param name="Standing">They stand there in fact; else the plan has them there.</param>
internal sealed record TrayPlace(
    Id<TraySet> TraySet, SpaceRun Trays, string House, int HouseOrder, string Bench, int BenchOrder, SpaceRun? Spaces, bool Standing)
{
    public string Words => $"{House} · bench {Bench} · {PaperWords.Spaces(Spaces)}";
}

/// <summary>Where trays stand; for trays that stand nowhere yet, where the plan has them on a day.</summary>
internal static class TrayPlaces
{
    public static async Task<ILookup<Id<TraySet>, TrayPlace>> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate day, CancellationToken cancellation)
    {
        var standing = await (
            from place in database.Standings
            join bench in database.Benches on place.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where place.SiteId == site
            select new TrayPlace(place.TraySetId, place.Trays, house.Name, house.RoundOrder, bench.Code, bench.RoundOrder, place.Spaces, true))
            .AsNoTracking().ToListAsync(cancellation);
        var there = standing.Select(place => place.TraySet).ToHashSet();
        var planned = await (
            from place in database.Reservations
            join bench in database.Benches on place.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where place.SiteId == site && place.Days.Contains(day)
            select new TrayPlace(place.TraySetId, place.Trays, house.Name, house.RoundOrder, bench.Code, bench.RoundOrder, place.Spaces, false))
            .AsNoTracking().ToListAsync(cancellation);
        return standing.Concat(planned.Where(place => !there.Contains(place.TraySet)))
            .OrderBy(place => place.HouseOrder).ThenBy(place => place.BenchOrder).ThenBy(place => place.Spaces?.First).ThenBy(place => place.Trays.First)
            .ToLookup(place => place.TraySet);
    }
}
