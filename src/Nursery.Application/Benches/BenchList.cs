using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Houses;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.People;

namespace Nursery.Application.Benches;

internal sealed class BenchList : SetupList<Bench>
{
    internal static IReadOnlyDictionary<string, Band> Bands { get; } =
        new Dictionary<string, Band> { ["warm"] = Band.Warm, ["cool"] = Band.Cool };

    private static readonly Dictionary<string, BenchKind> Kinds = new()
    {
        ["germination"] = BenchKind.Germination,
        ["growing"] = BenchKind.Growing,
        ["hardening"] = BenchKind.Hardening,
    };

    public override SetupListInfo Info { get; } = new("benches", "Benches", "bench", Right.Plan,
    [
        new("house", "House", ColumnKind.Code) { Of = "houses" },
        new("code", "Code") { Hint = "as on the bench sign: 1A" },
        new("name", "Name"),
        new("kind", "Kind", ColumnKind.Word) { Words = [.. Kinds.Keys], Hint = "germination benches have heat zones" },
        new("band", "Band", ColumnKind.Word) { Words = [.. Bands.Keys], MayBeEmpty = true, Hint = "of a growing bench only" },
        new("length_cm", "Length", ColumnKind.Centimeters) { Hint = "along the house" },
        new("width_cm", "Width", ColumnKind.Centimeters),
        new("x_cm", "From the end wall", ColumnKind.Centimeters) { Hint = "along the house, to the bench's near corner" },
        new("y_cm", "From the side wall", ColumnKind.Centimeters),
        new("spaces", "Tray spaces", ColumnKind.Whole) { Hint = "of a 1020 tray; may grow, never below what was ever reserved" },
        new("rows", "Rows of trays", ColumnKind.Whole) { Hint = "side by side across the width" },
        new("round_order", "Place in the round", ColumnKind.Whole),
    ]);

    public override Dictionary<string, Bench> Of(NurseryRows rows) => rows.Benches;

    public override Bench? Read(CsvRow line, NurseryRows rows, Bench? known)
    {
        if (line.Of("house", rows.Houses, "a house") is not { } house)
        {
            return null;
        }

        var bench = BenchOf(line, house, rows, known);
        if (house.RetiredOn is not null)
        {
            line.Fail("house", $"a house in use: {house.Code} is retired");
        }

        CheckPlace(line, bench, house, rows.Benches.Values);
        if (rows.Zones.Values.Where(zone => zone.BenchId == bench.Id && zone.Spaces.Last > bench.Capacity)
            .Select(zone => $"{zone.Code} ends on space {Cell.Of(zone.Spaces.Last)}").ToList() is { Count: > 0 } beyond)
        {
            line.Fail("spaces", $"enough for its heat zones: {string.Join(", ", beyond)}");
        }

        if (bench.Kind != BenchKind.Germination && rows.Zones.Values.Any(zone => zone.BenchId == bench.Id))
        {
            line.Fail("kind", "germination: the bench has heat zones");
        }

        return bench;
    }

    private static Bench BenchOf(CsvRow line, House house, NurseryRows rows, Bench? known)
    {
        var kind = line.Word("kind", Kinds);
        if (kind != BenchKind.Growing && !line.IsEmpty("band"))
        {
            line.Fail("band", "empty, unless the bench is a growing bench");
        }

        return new Bench
        {
            Id = known?.Id ?? NewId.Of<Bench>(rows.Time),
            SiteId = house.SiteId,
            HouseId = house.Id,
            Code = line.Text("code", 20),
            Name = line.Text("name"),
            Kind = kind,
            Band = kind == BenchKind.Growing ? line.Word("band", Bands) : null,
            LengthCm = line.Whole("length_cm", 1, HouseList.MostCm),
            WidthCm = line.Whole("width_cm", 1, HouseList.MostCm),
            XCm = line.Whole("x_cm", 0, HouseList.MostCm),
            YCm = line.Whole("y_cm", 0, HouseList.MostCm),
            Capacity = line.Whole("spaces", 1, 10_000),
            Rows = line.Whole("rows", 1, 100),
            RoundOrder = line.Whole("round_order", 1, 1000),
            RetiredOn = known?.RetiredOn,
            Version = (known?.Version ?? 0) + 1,
        };
    }

    private static void CheckPlace(CsvRow line, Bench bench, House house, IEnumerable<Bench> others)
    {
        if (bench.XCm + bench.LengthCm > house.LengthCm || bench.YCm + bench.WidthCm > house.WidthCm)
        {
            line.Fail(bench.XCm + bench.LengthCm > house.LengthCm ? "x_cm" : "y_cm", $"a bench inside house {house.Code}");
        }

        var under = others.Where(other => other.HouseId == house.Id && other.RetiredOn is null && Overlap(bench, other))
            .Select(other => other.Code).ToList();
        if (under.Count > 0)
        {
            line.Fail("x_cm", $"a bench over no other: this one lies over bench {string.Join(", ", under)}");
        }
    }

    private static bool Overlap(Bench one, Bench other) =>
        one.XCm < other.XCm + other.LengthCm && other.XCm < one.XCm + one.LengthCm
        && one.YCm < other.YCm + other.WidthCm && other.YCm < one.YCm + one.WidthCm;

    protected override IReadOnlyDictionary<string, string> Fields(Bench row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["house"] = rows.Houses.Values.First(house => house.Id == row.HouseId).Code,
        ["code"] = row.Code,
        ["name"] = row.Name,
        ["kind"] = Cell.Of(row.Kind, Kinds),
        ["band"] = row.Band is { } band ? Cell.Of(band, Bands) : "",
        ["length_cm"] = Cell.Of(row.LengthCm),
        ["width_cm"] = Cell.Of(row.WidthCm),
        ["x_cm"] = Cell.Of(row.XCm),
        ["y_cm"] = Cell.Of(row.YCm),
        ["spaces"] = Cell.Of(row.Capacity),
        ["rows"] = Cell.Of(row.Rows),
        ["round_order"] = Cell.Of(row.RoundOrder),
    };

    protected override Guid IdOf(Bench row) => row.Id.Value;

    protected override int VersionOf(Bench row) => row.Version;

    protected override LocalDate? RetiredOn(Bench row) => row.RetiredOn;

    protected override void TakeBack(Bench row) => row.RetiredOn = null;

    protected override IEnumerable<Bench> Sorted(IEnumerable<Bench> all, NurseryRows rows)
    {
        var houses = rows.Houses.Values.ToDictionary(house => house.Id, house => house.RoundOrder);
        return all.OrderBy(row => houses[row.HouseId]).ThenBy(row => row.RoundOrder).ThenBy(row => row.Code, StringComparer.Ordinal);
    }

    public override Task LockAsync(NurseryDbContext database, NurseryRows rows, CancellationToken cancellation) =>
        database.LockBenchesAsync(rows.Benches.Values.Select(bench => bench.Id), cancellation);

    /// <summary>The database refuses a reservation beyond its bench; this says which one it would be.</summary>
    protected override async Task CheckAsync(
        NurseryDbContext database, CsvRow line, Bench known, Bench read, NurseryRows rows, CancellationToken cancellation)
    {
        if (read.Capacity < known.Capacity && await BenchHolds.BeyondAsync(database, known.Id, read.Capacity, cancellation) is { } held)
        {
            line.Fail("spaces", $"{Cell.Of(held.Space)} or more: space {Cell.Of(held.Space)} is reserved by {held.TraySetCode}");
        }

        if (read.Kind != known.Kind && await BenchHolds.FromAsync(database, known.Id, rows.Site.Today(rows.Time), cancellation) is { Count: > 0 } holding)
        {
            line.Fail("kind", $"{Cell.Of(known.Kind, Kinds)} while trays are planned on it: {string.Join(", ", holding.Take(5))}");
        }
    }

    public override async Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var bench = rows.Benches[key];
        var today = rows.Site.Today(rows.Time);
        if (await BenchHolds.FromAsync(database, bench.Id, today, cancellation) is { Count: > 0 } holding)
        {
            throw new InUse($"Bench {bench.Code} still holds trays or is promised to them: {string.Join(", ", holding.Take(5))}. Move them first");
        }

        var used = rows.Zones.Values.Any(zone => zone.BenchId == bench.Id)
            || await database.Reservations.AnyAsync(row => row.BenchId == bench.Id, cancellation)
            || await database.Standings.AnyAsync(row => row.BenchId == bench.Id, cancellation)
            || await database.Outages.AnyAsync(row => row.BenchId == bench.Id, cancellation)
            || await database.Ledger.AnyAsync(row => row.BenchId == bench.Id, cancellation);
        if (!used)
        {
            database.Remove(bench);
            return true;
        }

        bench.RetiredOn = today;
        bench.Version++;
        return false;
    }
}
