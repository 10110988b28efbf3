using Microsoft.EntityFrameworkCore;
using Nursery.Application.Benches;
using Nursery.Application.Crops;
using Nursery.Application.HeatZones;
using Nursery.Application.Houses;
using Nursery.Application.People;
using Nursery.Application.SeedLots;
using Nursery.Application.Sites;
using Nursery.Application.Transactions;
using Nursery.Application.TrayTypes;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>The lists of the setup, in the order a nursery is set up in.</summary>
public sealed class SetupLists
{
    private readonly IReadOnlyList<ISetupList> _lists =
    [
        new SiteList(), new HouseList(), new BenchList(), new ZoneList(), new TrayTypeList(), new CropList(), new VarietyList(), new LotList(),
        new PersonList(),
    ];

    public IReadOnlyList<SetupListInfo> All => [.. _lists.Select(list => list.Info)];

    /// <exception cref="NotFound">There is no such list.</exception>
    public SetupListInfo Info(string name) => Find(name).Info;

    internal ISetupList Find(string name) =>
        _lists.FirstOrDefault(list => list.Info.Name == name) ?? throw new NotFound("list", "list", name);

    /// <summary>One change of the setup at a time, or two would not see each other's benches; planners wait where the list says so.</summary>
    internal static async Task<NurseryRows> BeginAsync(
        NurseryDbContext database, ISetupList list, Actor actor, StartingCrops starting, TimeProvider time, CancellationToken cancellation)
    {
        await database.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock(hashtext('setup'))", cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        if (list is LotList)
        {
            // Before they are read: a sowing takes from the stock.
            await database.Database.ExecuteSqlAsync($"SELECT 1 FROM seed_lots ORDER BY id FOR UPDATE", cancellation);
        }

        var rows = await NurseryRows.LoadAsync(database, site, starting.Read(), time, cancellation);
        await list.LockAsync(database, rows, cancellation);
        return rows;
    }

    internal static void Store(
        NurseryDbContext database, ISetupList list, IEnumerable<Staged> staged, NurseryRows rows, Actor actor)
    {
        foreach (var crop in rows.TakenCrops)
        {
            database.Add(crop);
            database.Write(rows.Site, actor, rows.Time, new Changed(
                "crop", crop.Code, null, new Dictionary<string, string> { ["code"] = crop.Code, ["name"] = crop.Name, ["sources"] = crop.Sources }));
        }

        foreach (var one in staged.Where(row => row.Change.Kind != ChangeKind.Unchanged))
        {
            list.Store(database, one, rows, actor);
            database.Write(rows.Site, actor, rows.Time, new Changed(
                list.Info.One,
                one.Key,
                one.Known is null ? null : one.Change.Fields.ToDictionary(field => field.Field, field => field.Before!),
                one.Change.Fields.ToDictionary(field => field.Field, field => field.After)));
        }
    }
}
