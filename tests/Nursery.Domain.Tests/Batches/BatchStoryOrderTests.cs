using CsCheck;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.Tests.Ledger;
using Nursery.Domain.TraySets;
using Xunit;
using static Nursery.Domain.Tests.Ledger.Entries;

namespace Nursery.Domain.Tests.Batches;

/// <summary>Whatever order entries arrive in, they fold to the same.</summary>
public sealed class BatchStoryOrderTests
{
    private static readonly Gen<EntryValue> Values = Gen.OneOf(
        Gen.Const((EntryValue)Sown()),
        Gen.Select(Gen.Enum<TaskKind>(), Gen.Int[1, 3], (kind, occurrence) => (EntryValue)new Done(kind, occurrence)),
        Gen.Enum<TaskKind>().Select(kind => (EntryValue)new NotYet(kind, 1, "later")),
        Gen.Select(Gen.Enum<CountWhat>(), Gen.Int[0, 36], Gen.Int[1, 4], (what, value, parts) =>
            (EntryValue)new Count(what, value, 36 * parts, parts < 4, 2)),
        Gen.Int[1, 9].Select(plants => (EntryValue)new Loss(plants, "slugs")),
        Gen.Select(Gen.Enum<BenchKind>(), Gen.Int[1, 4], Gen.Int[1, 3], (kind, first, trays) =>
            (EntryValue)new Moved(new SpaceRun(first, trays), BenchId, kind, null)),
        Gen.Const((EntryValue)new Surface(SurfaceState.Dry)));

    /// <summary>One in four entries follows from an earlier one, one in five is taken back, some at the very same moment,
    /// sometimes by an undo of an entry that never arrives or of another undo.</summary>
    private static readonly Gen<LedgerEntry[]> Histories =
        from first in Gen.Const(At(0, Sown()))
        from steps in Gen.Select(Values, Gen.Int[0, 400], Gen.Int[0, 99], Gen.Int[0, 1000], (value, hour, dice, pick) => (value, hour, dice, pick)).Array[1, 14]
        select Build(first, steps);

    [Fact]
    public void Fold_AnyOrderOfArrival_GivesTheSameState() => Histories
        .SelectMany(history => Gen.Shuffle(history).Select(shuffled => (history, shuffled)))
        .Sample(
            (history, shuffled) =>
            {
                Assert.Equal(BatchStory.Fold(history), BatchStory.Fold(shuffled));
                Assert.Equal(
                    TaskClosings.Of(history).OrderBy(row => row.Key).ToList(), TaskClosings.Of(shuffled).OrderBy(row => row.Key).ToList());
                Assert.Equal(Standing(history), Standing(shuffled));
            },
            iter: 3000);

    [Fact]
    public void Fold_EntriesOneByOneAsTheyArrive_EndsWhereAllAtOnceEnds() => Histories.Sample(
        history =>
        {
            var known = new List<LedgerEntry>();
            var state = BatchState.Planned;
            foreach (var entry in history.Reverse())
            {
                known.Add(entry);
                state = BatchStory.Fold(known);
            }

            Assert.Equal(BatchStory.Fold(history), state);
        },
        iter: 1000);

    private static LedgerEntry[] Build(LedgerEntry first, (EntryValue Value, int Hour, int Dice, int Pick)[] steps)
    {
        var entries = new List<LedgerEntry> { first };
        foreach (var (value, hour, dice, pick) in steps)
        {
            var earlier = entries[pick % entries.Count].Id.Value;
            entries.Add(dice switch
            {
                < 25 => At(hour, value, causedBy: earlier),
                < 42 => At(hour, Undo(earlier)),
                < 45 => At(hour, Undo(Guid.CreateVersion7())),
                _ => At(hour, value, who: $"worker {pick % 3}"),
            });
        }

        return [.. entries];
    }

    private static List<string> Standing(LedgerEntry[] entries)
    {
        var traySet = new TraySet
        {
            Id = new Id<TraySet>(Guid.Empty),
            SiteId = new Id<Site>(Guid.Empty),
            Code = "PE-001-A-1",
            Trays = 5,
            CellsPerTray = 36,
        };
        return [.. TraySetStory.Fold(traySet, entries).Select(row => $"{row.Id} {row.Trays} {row.BenchId} {row.Since}")];
    }
}
