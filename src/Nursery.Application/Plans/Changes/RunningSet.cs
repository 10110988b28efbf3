using System.Globalization;
using NodaTime;
using Nursery.Application.Reservations;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Plans.Changes;

/// <summary>A reservation that ends on a day: at its first day it is gone.</summary>
internal sealed record RunningEnd(Guid Reservation, LocalDate On);

/// <summary>Spaces running trays hold anew.</summary>
/// <param name="SetpointF">What they lie at on heat, °F; null on benches.</param>
/// <param name="Stuck">They stay on spaces that are out of use, as there are no others.</param>
internal sealed record RunningHold(
    int FirstTray, int Trays, string Bench, int FirstSpace, int Spaces, LocalDate From, LocalDate To, double? SetpointF, bool Stuck)
{
    public SpaceRun Run => new(FirstSpace, Spaces);

    public Reservation AsReservation(TraySet traySet, Bench bench, Id<Reservation> id) => new()
    {
        Id = id,
        SiteId = traySet.SiteId,
        TraySetId = traySet.Id,
        Trays = new SpaceRun(FirstTray, Trays),
        BenchId = bench.Id,
        Capacity = bench.Capacity,
        Spaces = Run,
        Days = new DateInterval(From, To.PlusDays(-1)),
    };
}

/// <summary>Trays that are not the plan's to time anew, and what something that happened does to their places.</summary>
/// <param name="Code">Of the batch; of the tray set when several batches are in it.</param>
/// <param name="Places">Its reservations before, in words.</param>
/// <param name="Slip">Days by which its batches are ready later; below 0 sooner.</param>
/// <param name="Ready">Planned ready day of each of its batches before, by code.</param>
/// <param name="Change">For people; null when nothing of its places changes.</param>
internal sealed record RunningSet(
    Guid TraySetId, string Code, string Places, int Slip, IReadOnlyDictionary<string, LocalDate> Ready, IReadOnlyList<RunningEnd> Ends,
    IReadOnlyList<RunningHold> Holds, RunningChange? Change);

internal static class RunningSets
{
    /// <summary>The season with these trays where they would stand.</summary>
    /// <returns>The rows, and by reservation the setpoint of those that are new on heat, °F.</returns>
    public static (SeasonRows Rows, IReadOnlyDictionary<Id<Reservation>, double> SetpointsF) Applied(SeasonRows rows, IReadOnlyList<RunningSet> sets)
    {
        var ends = sets.SelectMany(set => set.Ends).ToDictionary(end => new Id<Reservation>(end.Reservation), end => end.On);
        var setpoints = new Dictionary<Id<Reservation>, double>();
        var places = rows.Places.SelectMany(group => group).Select(place => ends.TryGetValue(place.Id, out var on) ? Ended(place, on) : place)
            .OfType<Reservation>().ToList();
        foreach (var set in sets)
        {
            var traySet = rows.Batches.First(row => row.TraySet.Id.Value == set.TraySetId).TraySet;
            foreach (var (number, hold) in set.Holds.Index())
            {
                // Never stored: an id that is the same every time, so that the same problem comes of the same rows.
                var id = new Id<Reservation>(DerivedId.From(set.TraySetId, "proposed", number));
                places.Add(hold.AsReservation(traySet, rows.Benches.Single(bench => bench.Code == hold.Bench), id));
                if (hold.SetpointF is { } setpoint)
                {
                    setpoints[id] = setpoint;
                }
            }
        }

        return (rows with { Places = places.ToLookup(place => place.TraySetId) }, setpoints);
    }

    /// <summary>What it would be after it ended on a day; null when nothing is left.</summary>
    private static Reservation? Ended(Reservation place, LocalDate on) => on <= place.Days.Start ? null : new Reservation
    {
        Id = place.Id,
        SiteId = place.SiteId,
        TraySetId = place.TraySetId,
        Trays = place.Trays,
        BenchId = place.BenchId,
        Capacity = place.Capacity,
        Spaces = place.Spaces,
        Days = new DateInterval(place.Days.Start, on.PlusDays(-1)),
    };

    public static string Trays(SpaceRun trays) => string.Create(CultureInfo.InvariantCulture, $"{(trays.Count == 1 ? "tray" : "trays")} {trays}");
}
