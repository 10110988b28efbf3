using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Houses;
using Nursery.Domain.Ledger;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Testing.Nurseries;

/// <summary>A house of 2,000 trays, full on every day of the season: six benches of 336 spaces, on each of them 42 tray sets of 8
/// trays side by side, followed by others when they go. The trays of today stand where the plan has them.</summary>
public static class FullHouse
{
    public const string Code = "FULL";
    public const int Benches = 6;
    public const int Spaces = 336;
    public const int TraysOfASet = 8;
    public const int Turns = 5;
    public const int DaysOfATurn = 45;

    /// <summary>Days before today that the first turn begins.</summary>
    public const int DaysBack = 28;

    public static string BenchCode(int bench) => $"F{bench + 1}";

    public static async Task AddAsync(NurseryDbContext database, Site site, Variety variety, TimeProvider time, Actors who)
    {
        var house = new House
        {
            Id = NewId.Of<House>(time),
            SiteId = site.Id,
            Code = Code,
            Name = "Full house",
            LengthCm = 4000,
            WidthCm = 1800,
            RoundOrder = 90,
        };
        database.Add(house);
        for (var bench = 0; bench < Benches; bench++)
        {
            Fill(database, AddBench(database, house, bench, time), site, variety, time, who);
        }

        await database.SaveChangesAsync();
    }

    /// <summary>Who is said to have sown.</summary>
    public sealed record Actors(Guid Id, string Name);

    private static Bench AddBench(NurseryDbContext database, House house, int number, TimeProvider time)
    {
        var bench = new Bench
        {
            Id = NewId.Of<Bench>(time),
            SiteId = house.SiteId,
            HouseId = house.Id,
            Code = BenchCode(number),
            Name = $"Bench {BenchCode(number)}",
            Kind = BenchKind.Growing,
            Band = Band.Warm,
            LengthCm = 3110,
            WidthCm = 165,
            XCm = 200,
            YCm = 80 + (number * 285),
            Capacity = Spaces,
            Rows = 3,
            RoundOrder = number + 1,
        };
        database.Add(bench);
        return bench;
    }

    private static void Fill(NurseryDbContext database, Bench bench, Site site, Variety variety, TimeProvider time, Actors who)
    {
        var today = site.Today(time);
        for (var turn = 0; turn < Turns; turn++)
        {
            var from = today.PlusDays((turn * DaysOfATurn) - DaysBack);
            for (var place = 0; place < Spaces / TraysOfASet; place++)
            {
                var number = (((bench.RoundOrder * Turns) + turn) * (Spaces / TraysOfASet)) + place;
                var stands = from <= today && today < from.PlusDays(DaysOfATurn);
                AddTrays(
                    database, bench, new SpaceRun((place * TraysOfASet) + 1, TraysOfASet), variety, time, HumanCode.ForBatch("FU", number + 1),
                    new DateInterval(from, from.PlusDays(DaysOfATurn - 1)), stands ? Sowing(site, from, time, who) : null, (BatchStage)(1 + (place % 5)));
            }
        }
    }

    private static void AddTrays(
        NurseryDbContext database, Bench bench, SpaceRun spaces, Variety variety, TimeProvider time,
        string code, DateInterval days, LedgerEntry? sown, BatchStage stage)
    {
        var batch = new Batch
        {
            Id = NewId.Of<Batch>(time),
            SiteId = bench.SiteId,
            Code = code,
            VarietyId = variety.Id,
            Cells = TraysOfASet * 72,
            SeedsPerCell = 1,
            SowOn = days.Start,
            ReadyOn = days.End,
            State = sown is null ? BatchState.Planned : new BatchState { Stage = stage, SownOn = days.Start },
        };
        var set = new TraySet
        {
            Id = NewId.Of<TraySet>(time),
            SiteId = bench.SiteId,
            Code = HumanCode.ForTraySet(code, 1),
            Trays = TraysOfASet,
            CellsPerTray = 72,
        };
        var trays = new SpaceRun(1, TraysOfASet);
        database.AddRange(
            batch,
            set,
            new TrayShare { TraySetId = set.Id, BatchId = batch.Id, Cells = batch.Cells },
            new Reservation
            {
                Id = NewId.Of<Reservation>(time),
                SiteId = bench.SiteId,
                TraySetId = set.Id,
                Trays = trays,
                BenchId = bench.Id,
                Capacity = bench.Capacity,
                Spaces = spaces,
                Days = days,
            });
        if (sown is not null)
        {
            database.AddRange(sown, new Standing
            {
                Id = NewId.Of<Standing>(time),
                SiteId = bench.SiteId,
                TraySetId = set.Id,
                Trays = trays,
                BenchId = bench.Id,
                Spaces = spaces,
                Since = days.Start,
                EntryId = sown.Id,
            });
        }
    }

    /// <summary>An entry for the standing trays to refer to.</summary>
    private static LedgerEntry Sowing(Site site, LocalDate on, TimeProvider time, Actors who) => new()
    {
        Id = NewId.Of<LedgerEntry>(time),
        SiteId = site.Id,
        WhoId = who.Id,
        WhoName = who.Name,
        HappenedAt = Instant.FromDateTimeOffset(time.GetUtcNow()),
        RecordedAt = Instant.FromDateTimeOffset(time.GetUtcNow()),
        Day = on,
        Kind = LedgerKind.Receipt,
        Value = new Receipt(0),
    };
}
