using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.People;

namespace Nursery.Application.Crops;

/// <summary>Varieties. A crop that is not in the list of crops is taken from the starting profiles, when they have it.</summary>
internal sealed class VarietyList : SetupList<Variety>
{
    public override SetupListInfo Info { get; } = new("varieties", "Varieties", "variety", Right.Plan,
    [
        new("code", "Code") { Hint = "PE-LANT" },
        new("crop", "Crop", ColumnKind.Code) { Of = "crops" },
        new("name", "Name"),
    ]);

    public override Dictionary<string, Variety> Of(NurseryRows rows) => rows.Varieties;

    public override Variety? Read(CsvRow line, NurseryRows rows, Variety? known)
    {
        if (!rows.Crops.ContainsKey(line["crop"]) && rows.StartingCrops.TryGetValue(line["crop"], out var starting))
        {
            rows.Crops.Add(starting.Code, starting);
            rows.TakenCrops.Add(starting);
        }

        if (line.Of("crop", rows.Crops, "a crop") is not { } crop)
        {
            return null;
        }

        if (crop.RetiredOn is not null)
        {
            line.Fail("crop", $"a crop in use: {crop.Code} is retired");
        }

        return new Variety
        {
            Id = known?.Id ?? NewId.Of<Variety>(rows.Time),
            CropId = crop.Id,
            Code = line.Text("code", 40),
            Name = line.Text("name"),
            RetiredOn = known?.RetiredOn,
            Version = (known?.Version ?? 0) + 1,
        };
    }

    protected override IReadOnlyDictionary<string, string> Fields(Variety row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["code"] = row.Code,
        ["crop"] = rows.Crops.Values.First(crop => crop.Id == row.CropId).Code,
        ["name"] = row.Name,
    };

    protected override Guid IdOf(Variety row) => row.Id.Value;

    protected override int VersionOf(Variety row) => row.Version;

    protected override LocalDate? RetiredOn(Variety row) => row.RetiredOn;

    protected override void TakeBack(Variety row) => row.RetiredOn = null;

    protected override IEnumerable<Variety> Sorted(IEnumerable<Variety> all, NurseryRows rows) =>
        all.OrderBy(row => row.Code, StringComparer.Ordinal);

    protected override async Task CheckAsync(
        NurseryDbContext database, CsvRow line, Variety known, Variety read, NurseryRows rows, CancellationToken cancellation)
    {
        if (read.CropId != known.CropId && await database.Batches.AnyAsync(batch => batch.VarietyId == known.Id, cancellation))
        {
            line.Fail("crop", "the crop it has: there are batches of it");
        }
    }

    public override async Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var variety = rows.Varieties[key];
        var lots = rows.Lots.Values.Where(lot => lot.VarietyId == variety.Id).ToList();
        if (lots.Where(lot => lot.RetiredOn is null && lot.StockSeeds > 0).Select(lot => lot.Code).Order(StringComparer.Ordinal).ToList() is { Count: > 0 } live)
        {
            throw new InUse($"Variety {variety.Code} still has seed in stock: {string.Join(", ", live.Take(5))}. Retire the lots first");
        }

        var used = lots.Count > 0
            || await database.Batches.AnyAsync(row => row.VarietyId == variety.Id, cancellation)
            || await database.OrderLines.AnyAsync(row => row.VarietyId == variety.Id, cancellation);
        if (!used)
        {
            database.Remove(variety);
            return true;
        }

        variety.RetiredOn = rows.Site.Today(rows.Time);
        variety.Version++;
        return false;
    }
}
