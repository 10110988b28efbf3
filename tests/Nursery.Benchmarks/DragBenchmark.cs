using System.Diagnostics;
using System.Globalization;
using Nursery.Application.Benches;
using Nursery.Application.Reservations;
using Nursery.Domain.Sites;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Benches;
using Nursery.Web.Components.Pages.Benches.Moving;

namespace Nursery.Benchmarks;

/// <summary>What the server answers while trays are dragged over a full house of 2,000 trays: the spaces under the pointer, and whether
/// the trays fit. The slowest of nineteen in twenty answers counts.</summary>
internal static class DragBenchmark
{
    private const int Warming = 20;
    private const int Places = 200;
    private static readonly TimeSpan Most = TimeSpan.FromMilliseconds(100);

    public static async Task<Measured> RunAsync()
    {
        await using var full = await FullNursery.OpenAsync();
        var nursery = full.Nursery;
        var houses = await nursery.Get<ShowHouses>().HandleAsync(null, nursery.HeadGrower);
        var map = MapLayout.Of(houses.Houses.Single(house => house.Code == FullHouse.Code), Units.UsCustomary);
        var mover = new TrayMover(nursery.Get<MoveTrays>(), nursery.Get<UndoReplan>());
        mover.Begin(nursery.HeadGrower, Units.UsCustomary, nursery.Today);
        var (answers, bare) = (new List<TimeSpan>(), new List<TimeSpan>());
        var (queries, fits) = (0, 0);
        for (var place = 0; place < Warming + Places; place++)
        {
            using var heard = await Queries.OfAsync(() => mover.OverAsync(Target(map, place)));
            await mover.OverAsync(null);
            var watch = Stopwatch.StartNew();
            await mover.OverAsync(Target(map, place));
            var answered = watch.Elapsed;
            fits += (mover.Answer ?? throw new InvalidOperationException("A place under the pointer was not answered")).Fits ? 1 : 0;
            watch.Restart();
            await heard.AskAsync(nursery);
            if (place >= Warming)
            {
                (queries, _) = (heard.Count, (answers, bare));
                answers.Add(answered);
                bare.Add(watch.Elapsed);
            }
        }

        if (fits == 0 || fits == Warming + Places)
        {
            throw new InvalidOperationException($"{fits} of the places fit: the drag meets only one kind of answer");
        }

        var ours = Slow(answers);
        return new Measured(
            "drag",
            string.Create(CultureInfo.InvariantCulture, $"answer to trays dragged over a house of {FullHouse.Benches * FullHouse.Spaces} trays, 95 of 100 are faster"),
            ours,
            Slow(bare),
            string.Create(CultureInfo.InvariantCulture, $"its {queries} queries alone"),
            "≤ 100 ms",
            ours <= Most);
    }

    /// <summary>Some other trays each time, drawn to some other spaces: mostly taken, their own among them.</summary>
    private static DropTarget Target(MapLayout map, int place)
    {
        var from = map.Benches[place % FullHouse.Benches];
        var to = map.Benches[place * 7 / 5 % FullHouse.Benches];
        var set = from.Sets[place * 13 % from.Sets.Count].Set;
        var grab = from.Geometry.Space(set.Run!.Value.First);
        var over = to.Geometry.Space(place % 4 == 0 && from == to ? set.Run.Value.First : 1 + (place * 31 % FullHouse.Spaces));
        var dragged = DraggedTrays.Of(map, set.ReservationId!.Value, grab.CenterX, grab.CenterY)
            ?? throw new InvalidOperationException("The trays are not there");
        return DropTarget.Under(map, dragged, over.CenterX, over.CenterY)
            ?? throw new InvalidOperationException("The place is beside the benches");
    }

    private static TimeSpan Slow(List<TimeSpan> times) => times.Order().ElementAt(times.Count * 95 / 100);
}
