using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Houses;
using Nursery.Domain.People;

namespace Nursery.Application.Houses;

internal sealed class HouseList : SetupList<House>
{
    internal const int MostCm = 100_000;

    public override SetupListInfo Info { get; } = new("houses", "Houses", "house", Right.Plan,
    [
        new("code", "Code") { Hint = "short, as on the door: H1" },
        new("name", "Name"),
        new("length_cm", "Length", ColumnKind.Centimeters),
        new("width_cm", "Width", ColumnKind.Centimeters),
        new("round_order", "Place in the round", ColumnKind.Whole) { Hint = "1, 2, … as you walk them" },
        new("cover_share", "Light through the cover", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "share of the light outside, 0.05–1; empty: 0.55 assumed" },
        new("lamp_ppfd", "Lamps, µmol/m²/s", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "PPFD at the leaves, measured or from the lamps' plan; empty: no lamps" },
        new("lamp_watts_m2", "Lamps, W/m²", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "power for each square meter lit; needed with lamps" },
        new("air_c", "Air is kept at", ColumnKind.Celsius) { MayBeEmpty = true, IsLater = true, Hint = "empty: 18 °C, 64 °F, assumed" },
    ]);

    public override Dictionary<string, House> Of(NurseryRows rows) => rows.Houses;

    public override House? Read(CsvRow line, NurseryRows rows, House? known)
    {
        var house = new House
        {
            Id = known?.Id ?? NewId.Of<House>(rows.Time),
            SiteId = rows.Site.Id,
            Code = line.Text("code", 20),
            Name = line.Text("name"),
            LengthCm = line.Whole("length_cm", 1, MostCm),
            WidthCm = line.Whole("width_cm", 1, MostCm),
            RoundOrder = line.Whole("round_order", 1, 1000),
            CoverShare = line.NumberOrEmpty("cover_share", 0.05m, 1),
            LampPpfd = line.NumberOrEmpty("lamp_ppfd", 1, 2000),
            LampWattsM2 = line.NumberOrEmpty("lamp_watts_m2", 1, 2000),
            AirC = line.NumberOrEmpty("air_c", 0, 40),
            RetiredOn = known?.RetiredOn,
            Version = (known?.Version ?? 0) + 1,
        };
        if (house.LampPpfd is null != house.LampWattsM2 is null)
        {
            line.Fail(house.LampPpfd is null ? "lamp_ppfd" : "lamp_watts_m2", "given together with the other one, or both empty");
        }

        var outside = rows.Benches.Values.Where(bench => bench.HouseId == house.Id && bench.RetiredOn is null)
            .Where(bench => bench.XCm + bench.LengthCm > house.LengthCm || bench.YCm + bench.WidthCm > house.WidthCm)
            .Select(bench => bench.Code).Order(StringComparer.Ordinal).ToList();
        if (outside.Count > 0)
        {
            line.Fail("length_cm", $"room for every bench: {string.Join(", ", outside)} would reach beyond the walls");
        }

        return house;
    }

    protected override IReadOnlyDictionary<string, string> Fields(House row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["code"] = row.Code,
        ["name"] = row.Name,
        ["length_cm"] = Cell.Of(row.LengthCm),
        ["width_cm"] = Cell.Of(row.WidthCm),
        ["round_order"] = Cell.Of(row.RoundOrder),
        ["cover_share"] = Cell.Of(row.CoverShare),
        ["lamp_ppfd"] = Cell.Of(row.LampPpfd),
        ["lamp_watts_m2"] = Cell.Of(row.LampWattsM2),
        ["air_c"] = Cell.Degrees(row.AirC),
    };

    protected override Guid IdOf(House row) => row.Id.Value;

    protected override int VersionOf(House row) => row.Version;

    protected override LocalDate? RetiredOn(House row) => row.RetiredOn;

    protected override void TakeBack(House row) => row.RetiredOn = null;

    protected override IEnumerable<House> Sorted(IEnumerable<House> all, NurseryRows rows) =>
        all.OrderBy(row => row.RoundOrder).ThenBy(row => row.Code, StringComparer.Ordinal);

    public override Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var house = rows.Houses[key];
        var benches = rows.Benches.Values.Where(bench => bench.HouseId == house.Id).ToList();
        if (benches.Where(bench => bench.RetiredOn is null).Select(bench => bench.Code).Order(StringComparer.Ordinal).ToList() is { Count: > 0 } live)
        {
            throw new InUse($"House {house.Code} still has benches: {string.Join(", ", live)}. Retire them first");
        }

        if (benches.Count == 0)
        {
            database.Remove(house);
            return Task.FromResult(true);
        }

        house.RetiredOn = rows.Site.Today(rows.Time);
        house.Version++;
        return Task.FromResult(false);
    }
}
