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
            RetiredOn = known?.RetiredOn,
            Version = (known?.Version ?? 0) + 1,
        };
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
