using Microsoft.EntityFrameworkCore;
using Nursery.Application.Crops;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>What became of a row: taken away when nothing ever used it, retired otherwise.</summary>
public sealed record RetiredRow(string Key, bool TakenAway);

public sealed class RetireSetupRow(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    /// <exception cref="InUse">Others rely on it; they are named.</exception>
    public Task<RetiredRow> HandleAsync(string list, Guid id, Actor actor, CancellationToken cancellation = default)
    {
        var found = lists.Find(list);
        actor.Must(found.Info.Right);
        return databases.RunAsync(database => RetireAsync(database, found, id, actor, cancellation), cancellation);
    }

    private async Task<RetiredRow> RetireAsync(
        NurseryDbContext database, ISetupList list, Guid id, Actor actor, CancellationToken cancellation)
    {
        var rows = await SetupLists.BeginAsync(database, list, actor, starting, time, cancellation);
        var row = list.Rows(rows).FirstOrDefault(candidate => candidate.Id == id)
            ?? throw new NotFound(list.Info.One, "id", id.ToString());
        if (row.RetiredOn is not null)
        {
            return new RetiredRow(row.Key, false);
        }

        var takenAway = await list.RetireAsync(database, row.Key, rows, cancellation);
        var after = takenAway
            ? null
            : new Dictionary<string, string> { ["retired_on"] = Cell.Of(rows.Site.Today(time)) };
        database.Write(rows.Site, actor, time, new Changed(list.Info.One, row.Key, row.Fields, after));
        await database.SaveChangesAsync(cancellation);
        return new RetiredRow(row.Key, takenAway);
    }
}
