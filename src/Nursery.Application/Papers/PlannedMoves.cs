using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Papers;

/// <summary>Trays that go from a place to another on a day.</summary>
/// <param name="From">Null when they are sown that day.</param>
internal sealed record PlannedMove(LocalDate On, Id<TraySet> TraySet, SpaceRun Trays, TrayPlace? From, TrayPlace To);

/// <summary>Reads the moves out of the plan: a reservation begins where none of the same trays was on that bench the day before.</summary>
internal static class PlannedMoves
{
    public static async Task<IEnumerable<PlannedMove>> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate first, LocalDate last, LocalDate today, CancellationToken cancellation)
    {
        var plan = await (
            from row in database.Reservations
            join bench in database.Benches on row.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where row.SiteId == site
            select new
            {
                row.Days,
                Place = new TrayPlace(row.TraySetId, row.Trays, house.Name, house.RoundOrder, bench.Code, bench.RoundOrder, row.Spaces, false),
            }).AsNoTracking().ToListAsync(cancellation);
        var bySet = plan.ToLookup(row => row.Place.TraySet);
        var standing = await TrayPlaces.LoadAsync(database, site, today, cancellation);
        var moves = new List<PlannedMove>();
        foreach (var row in plan.Where(row => row.Days.Start <= last && row.Days.End >= first))
        {
            var to = row.Place;
            var stands = standing[to.TraySet].Where(place => place.Standing && place.Trays.Overlaps(to.Trays)).ToList();

            // Before the first day only what is late: it should lie here by now and stands elsewhere.
            if (row.Days.Start < first && (first != today || stands.Count == 0 || stands.Exists(place => place.Bench == to.Bench)))
            {
                continue;
            }

            var before = bySet[to.TraySet].Where(other => other.Days.End == row.Days.Start.PlusDays(-1) && other.Place.Trays.Overlaps(to.Trays))
                .Select(other => other.Place).OrderBy(place => place.Trays.First).FirstOrDefault();
            var from = (row.Days.Start <= today ? stands.FirstOrDefault() : null) ?? before ?? stands.FirstOrDefault();
            if (from is null || from.Bench != to.Bench || from.Spaces != to.Spaces)
            {
                moves.Add(new PlannedMove(row.Days.Start, to.TraySet, to.Trays, from, to));
            }
        }

        return moves.OrderBy(move => move.On)
            .ThenBy(move => move.From?.HouseOrder).ThenBy(move => move.From?.BenchOrder).ThenBy(move => move.From?.Spaces?.First)
            .ThenBy(move => move.To.HouseOrder).ThenBy(move => move.To.BenchOrder).ThenBy(move => move.To.Spaces?.First);
    }
}
