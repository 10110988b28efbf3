using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Setup.Lists;

/// <summary>A list with all its rows, retired ones too.</summary>
public sealed record SetupListPage(SetupListInfo Info, IReadOnlyList<SetupRow> Rows);

public sealed class ShowSetupList(IDbContextFactory<NurseryDbContext> databases, SetupLists lists, TimeProvider time)
{
    public async Task<SetupListPage> HandleAsync(string list, Actor actor, CancellationToken cancellation = default)
    {
        var found = lists.Find(list);
        actor.Must(found.Info.Right);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var rows = await NurseryRows.LoadAsync(database, site, new Dictionary<string, Domain.Crops.Crop>(), time, cancellation);
        return new SetupListPage(found.Info, found.Rows(rows));
    }
}
