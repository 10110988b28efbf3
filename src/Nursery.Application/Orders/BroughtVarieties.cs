using Nursery.Application.Crops;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Orders;

/// <summary>Varieties an order file brings: those that are not in the list yet, with their crops. The rules are those of the list
/// of varieties; a known variety is not changed.</summary>
internal sealed class BroughtVarieties
{
    private readonly ISetupList _list;
    private readonly NurseryRows _rows;
    private readonly IReadOnlyList<Staged> _staged;

    private BroughtVarieties(ISetupList list, NurseryRows rows, IReadOnlyList<Staged> staged) =>
        (_list, _rows, _staged) = (list, rows, staged);

    public int Count => _staged.Count;

    public IReadOnlyList<string> StartingCrops => [.. _rows.TakenCrops.Select(crop => crop.Code).Order(StringComparer.Ordinal)];

    public IEnumerable<(string Code, Id<Variety> Id)> All => _staged.Select(one => (one.Key, ((Variety)one.Read).Id));

    public static async Task<BroughtVarieties> OfAsync(
        NurseryDbContext database,
        IReadOnlyList<OrderRow> orders,
        List<FieldError> errors,
        SetupLists lists,
        StartingCrops starting,
        Actor actor,
        TimeProvider time,
        CancellationToken cancellation)
    {
        var list = lists.Find("varieties");
        var rows = await SetupLists.BeginAsync(database, list, actor, starting, time, cancellation);
        var found = new List<FieldError>();
        var lines = new List<CsvRow>();
        foreach (var variety in orders.GroupBy(order => order.Variety))
        {
            var first = variety.First();
            var (crop, name) = rows.Varieties.TryGetValue(variety.Key, out var known)
                ? (rows.Crops.Values.First(row => row.Id == known.CropId).Code, known.Name)
                : (CropCode(rows, first.Crop!), first.VarietyName!);
            foreach (var other in variety.Where(other => CropCode(rows, other.Crop!) != crop))
            {
                found.Add(new FieldError("crop", other.Crop, $"'{crop}', the crop of {variety.Key}", other.Line));
            }

            foreach (var other in variety.Where(other => other.VarietyName != name))
            {
                found.Add(new FieldError("variety_name", other.VarietyName, $"'{name}', the name of {variety.Key}", other.Line));
            }

            if (known is null)
            {
                var fields = new Dictionary<string, string> { ["code"] = variety.Key, ["crop"] = crop, ["name"] = name };
                lines.Add(new CsvRow(null, first.Line, fields, null, found));
            }
        }

        var staged = list.Stage(lines, rows, null);
        errors.AddRange(found.Select(InTheWordsOfTheFile));
        return new BroughtVarieties(list, rows, staged);
    }

    public void Store(NurseryDbContext database, Actor actor) => SetupLists.Store(database, _list, _staged, _rows, actor);

    /// <summary>A sheet may say the crop by its code or, as people do, by its name.</summary>
    private static string CropCode(NurseryRows rows, string crop)
    {
        if (rows.Crops.ContainsKey(crop) || rows.StartingCrops.ContainsKey(crop))
        {
            return crop;
        }

        return rows.Crops.Values.Concat(rows.StartingCrops.Values)
            .FirstOrDefault(row => string.Equals(row.Name, crop, StringComparison.OrdinalIgnoreCase))?.Code ?? crop;
    }

    private static FieldError InTheWordsOfTheFile(FieldError error) => error.Field switch
    {
        "code" => error with { Field = "variety" },
        "name" => error with { Field = "variety_name" },
        "crop" when error.Allowed == "the code of a crop" => error with
        {
            Allowed = "the code or the name of a crop: one of yours, or one of the starting profiles",
        },
        _ => error,
    };
}
