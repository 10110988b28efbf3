using Microsoft.EntityFrameworkCore;
using Nursery.Application.Crops;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>A row as a form has it.</summary>
/// <param name="List">The list.</param>
/// <param name="Id">The row; null makes a new one.</param>
/// <param name="Version">Of the row when it was read; 0 for a new one.</param>
/// <param name="Fields">By column, as in the file.</param>
/// <param name="Was">The fields when it was read: a version that grew by other things (seed sown from a lot) is then no conflict.</param>
public sealed record SaveRowRequest(
    string List, Guid? Id, int Version, IReadOnlyDictionary<string, string> Fields, IReadOnlyDictionary<string, string>? Was = null);

/// <summary>Creates or changes a row of the setup.</summary>
public sealed class SaveSetupRow(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    /// <exception cref="InvalidFields">Values outside what is allowed; what stands in the way is named.</exception>
    /// <exception cref="ChangedMeanwhile">Somebody else changed the row since it was read.</exception>
    public Task<SetupChange> HandleAsync(SaveRowRequest request, Actor actor, CancellationToken cancellation = default)
    {
        var list = lists.Find(request.List);
        actor.Must(list.Info.Right);
        return databases.RunAsync(database => SaveAsync(database, list, request, actor, cancellation), cancellation);
    }

    private async Task<SetupChange> SaveAsync(
        NurseryDbContext database, ISetupList list, SaveRowRequest request, Actor actor, CancellationToken cancellation)
    {
        var rows = await SetupLists.BeginAsync(database, list, actor, starting, time, cancellation);
        var fields = list.Info.Whole(request.Fields);
        RefuseOvertaken(list, rows, request, fields);
        var errors = new List<FieldError>();
        var line = new CsvRow(null, null, fields, null, errors);
        if (request.Id is null && list.Rows(rows).Any(row => row.Key == fields[list.Info.Key]))
        {
            line.Fail(list.Info.Key, $"a {list.Info.Key} no other {list.Info.One} has, retired ones too");
            throw new InvalidFields(errors);
        }

        var staged = list.Stage([line], rows, request.Id ?? Guid.Empty);
        foreach (var one in staged)
        {
            await list.CheckAsync(database, one, rows, cancellation);
        }

        if (errors.Count > 0)
        {
            throw new InvalidFields(errors);
        }

        SetupLists.Store(database, list, staged, rows, actor);
        await database.SaveChangesAsync(cancellation);
        return staged[0].Change;
    }

    private static void RefuseOvertaken(
        ISetupList list, NurseryRows rows, SaveRowRequest request, Dictionary<string, string> fields)
    {
        if (request.Id is not { } id)
        {
            return;
        }

        var now = list.Rows(rows).FirstOrDefault(row => row.Id == id)
            ?? throw new NotFound(list.Info.One, list.Info.Key, fields[list.Info.Key]);
        var moved = request.Was is { } was
            ? now.Fields.Any(field => was.GetValueOrDefault(field.Key) != field.Value)
            : now.Version != request.Version;
        var differing = fields.Where(field => field.Value != now.Fields[field.Key])
            .Select(field => new TwoValues(field.Key, field.Value, now.Fields[field.Key])).ToList();
        if (moved && differing.Count > 0)
        {
            throw new ChangedMeanwhile($"The {list.Info.One} {now.Key}", now.Version, differing);
        }
    }
}
