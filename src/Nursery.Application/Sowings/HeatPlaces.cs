using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Sowings;

/// <summary>The first spaces tray sets hold on germination benches, by plan.</summary>
internal sealed class HeatPlaces
{
    private readonly ILookup<Id<TraySet>, (DateInterval Days, Id<Bench> Bench, int Space)> _places;

    private HeatPlaces(ILookup<Id<TraySet>, (DateInterval Days, Id<Bench> Bench, int Space)> places) => _places = places;

    public static async Task<HeatPlaces> LoadAsync(
        NurseryDbContext database, IReadOnlyCollection<Id<TraySet>> traySets, CancellationToken cancellation)
    {
        var rows = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            where traySets.Contains(reservation.TraySetId) && bench.Kind == BenchKind.Germination
            select reservation).AsNoTracking().ToListAsync(cancellation);
        return new HeatPlaces(rows.OrderBy(row => row.Days.Start).ThenBy(row => row.Id)
            .ToLookup(row => row.TraySetId, row => (row.Days, row.BenchId, row.Spaces.First)));
    }

    /// <summary>Where it is to lie on its sowing day; null without a place on heat.</summary>
    public (Id<Bench> Bench, int Space)? Of(Id<TraySet> traySet, LocalDate sowOn) => _places[traySet]
        .Where(place => place.Days.Contains(sowOn)).Select(place => ((Id<Bench>, int)?)(place.Bench, place.Space)).FirstOrDefault();
}
