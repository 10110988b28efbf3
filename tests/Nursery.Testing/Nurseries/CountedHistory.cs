using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Testing.Nurseries;

/// <summary>Half a year of batches that came up, rows only: each sown, placed, watered every other day and counted four times, one in
/// ten counts taken back and done again.</summary>
public static class CountedHistory
{
    public const int Batches = 300;
    public const int Counts = 4;
    private const int Cells = 144;
    private const int Waterings = 15;

    public static async Task AddAsync(TestNursery nursery, NurseryDbContext database)
    {
        for (var number = 0; number < Batches; number++)
        {
            Add(nursery, database, number);
        }

        await database.SaveChangesAsync();
    }

    private static void Add(TestNursery nursery, NurseryDbContext database, int number)
    {
        var (variety, lot) = (number % 3) switch
        {
            0 => (nursery.Pepper, nursery.PepperLot),
            1 => (nursery.Lettuce, nursery.LettuceLot),
            _ => (nursery.Tomato, nursery.TomatoLot),
        };
        var sown = nursery.Today.PlusDays(-180 + (number * 150 / Batches));
        var up = 90 + (number % 50);
        var batch = new Batch
        {
            Id = NewId.Of<Batch>(nursery.Clock),
            SiteId = nursery.At.Site.Id,
            Code = $"HI-{number:000}",
            VarietyId = variety.Id,
            LotId = lot.Id,
            Cells = Cells,
            SeedsPerCell = 1,
            SowOn = sown,
            ReadyOn = sown.PlusDays(56),
            State = new BatchState
            {
                Stage = BatchStage.HandedOver,
                SownOn = sown,
                LotId = lot.Id,
                SeedsSown = Cells,
                CellsSown = Cells,
                CountedSeeds = Cells,
                CountedUp = up,
                CountedOn = sown.PlusDays(4 + (3 * Counts)),
                ThinnedOn = sown.PlusDays(20),
            },
        };
        var traySet = new TraySet
        {
            Id = NewId.Of<TraySet>(nursery.Clock),
            SiteId = batch.SiteId,
            Code = $"{batch.Code}-1",
            Trays = 2,
            CellsPerTray = 72,
        };
        database.AddRange(batch, traySet, new TrayShare { TraySetId = traySet.Id, BatchId = batch.Id, Cells = Cells });
        var bench = number % 2 == 0 ? nursery.At.Heat : nursery.At.Cool;
        Write(0, new Placed(new SpaceRun(1, 2), bench.Id, bench.Kind, null), traySet, bench.Id);
        for (var day = 1; day <= Waterings; day++)
        {
            Write(day * 2, new Done(TaskKind.Water, day));
        }

        for (var count = 1; count <= Counts; count++)
        {
            var value = new Count(CountWhat.Seedlings, up * count / Counts, Cells, false, 1);
            if ((number + count) % 10 == 0)
            {
                Write(4 + (3 * count), new Undo(Write(4 + (3 * count), value).Id));
            }

            Write(4 + (3 * count), value);
        }

        Write(20, new Done(TaskKind.Thin, 1));

        LedgerEntry Write(int day, EntryValue value, TraySet? trays = null, Id<Domain.Benches.Bench>? where = null)
        {
            var at = sown.PlusDays(day).AtMidnight().PlusHours(9).InZoneLeniently(nursery.At.Site.Zone).ToInstant();
            var entry = new LedgerEntry
            {
                Id = NewId.Of<LedgerEntry>(nursery.Clock),
                SiteId = batch.SiteId,
                BatchId = value is Undo ? null : batch.Id,
                TraySetId = trays?.Id,
                BenchId = where,
                UndoOf = value is Undo undo ? undo.Entry : null,
                WhoId = nursery.Staff.Id,
                WhoName = nursery.Staff.Name,
                HappenedAt = at,
                RecordedAt = at,
                Day = sown.PlusDays(day),
                Kind = value.Kind,
                Value = value,
            };
            database.Add(entry);
            return entry;
        }
    }
}
