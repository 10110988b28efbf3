using Microsoft.EntityFrameworkCore;
using Nursery.Application.Crops;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>Takes a retired row into use again, when nothing stands in its way.</summary>
public sealed class TakeBackSetupRow(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    /// <returns>The row's key.</returns>
    /// <exception cref="InvalidFields">Something took its place meanwhile, or what it belongs to is retired.</exception>
    public Task<string> HandleAsync(string list, Guid id, Actor actor, CancellationToken cancellation = default)
    {
        var found = lists.Find(list);
        actor.Must(found.Info.Right);
        return Transactions.Transaction.RunAsync(databases, database => TakeBackAsync(database, found, id, actor, cancellation), cancellation);
    }

    private async Task<string> TakeBackAsync(
        NurseryDbContext database, ISetupList list, Guid id, Actor actor, CancellationToken cancellation)
    {
        var rows = await SetupLists.BeginAsync(database, list, actor, starting, time, cancellation);
        var row = list.Rows(rows).FirstOrDefault(candidate => candidate.Id == id)
            ?? throw new NotFound(list.Info.One, "id", id.ToString());
        if (row.RetiredOn is null)
        {
            return row.Key;
        }

        var errors = new List<FieldError>();
        var staged = list.TakeBack(new CsvRow(null, null, row.Fields, null, errors), row.Key, rows);
        if (errors.Count > 0)
        {
            throw new InvalidFields(errors);
        }

        SetupLists.Store(database, list, [staged], rows, actor);
        await database.SaveChangesAsync(cancellation);
        return row.Key;
    }
}
