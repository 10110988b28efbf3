using Nursery.Application.Batches;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Ledger;
using Nursery.Domain.Reservations;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Tasks;
using Nursery.Web.Components.Pages.Batches;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class StoryWordsTests
{
    private static readonly EntryValue[] Values =
    [
        new Receipt(10), new Planned(1, 72, 1), new Imported("orders", 2, 1),
        new Reserved(new Id<Reservation>(Guid.Empty), new SpaceRun(1, 2), new Id<Bench>(Guid.Empty), new SpaceRun(1, 2), "2026-03-01", "2026-03-05"),
        new Replanned("moved", [], []), new SetpointChanged(new Id<HeatZone>(Guid.Empty), 20, "2026-03-01", null),
        new BatchReplanned(2, "2026-03-01", "L-1"), new Changed("bench", "1A", null, null),
        new Sown(new Id<SeedLot>(Guid.Empty), 72, 72, 1),
        new Placed(new SpaceRun(1, 2), new Id<Bench>(Guid.Empty), BenchKind.Germination, 1),
        new Moved(new SpaceRun(1, 2), new Id<Bench>(Guid.Empty), BenchKind.Growing, null),
        new Done(TaskKind.Water, 1), new Undo(new Id<LedgerEntry>(Guid.Empty)), new NotYet(TaskKind.Thin, 1, "no time"),
        new Count(CountWhat.Blanks, 3, 72, true, 1), new Surface(SurfaceState.Dry), new Loss(3, "damping off"), new Discarded("no order"),
        new Worked(TaskKind.Water, "by hand"),
        new TraysShared("PE-001-X-1", "cell rows 1–4", 24, ["TO-001-Y"]), new TraysUnshared("TO-001-Y-2", 1, 72, ["PE-001-X"]), new TraysDiscarded(new SpaceRun(1, 2), "damping off"),
        new ResowPlanned("PE-002-X", 30),
        new TakenOutOfUse(new Id<Bench>(Guid.Empty), null, "2026-03-01", "2026-03-05", "leg broken"), new GivenBack(new Id<Bench>(Guid.Empty), new Id<HeatZone>(Guid.Empty), "2026-03-01", "2026-03-03", "2026-03-05"),
    ];

    [Fact]
    public void Of_EveryKindOfEntry_HasASentence()
    {
        var words = new StoryWords([], [], []);
        foreach (var value in Values)
        {
            Assert.NotEmpty(words.Of(new StoryLine(Guid.Empty, value.Kind, default, default, "Someone", value, false)));
        }

        Assert.Equal(Enum.GetValues<LedgerKind>().Order(), Values.Select(value => value.Kind).Order());
    }
}
