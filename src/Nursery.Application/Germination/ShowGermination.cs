using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Germination;

/// <summary>Germination as the manager looks at it: rows with their batches, and what can be chosen among all batches of the days.</summary>
/// <param name="Crops">Code and name, by name.</param>
/// <param name="Houses">Code and name, by name.</param>
/// <param name="Lots">Codes.</param>
public sealed record GerminationView(
    IReadOnlyList<GerminationRow> Rows,
    IReadOnlyList<(string Code, string Name)> Crops,
    IReadOnlyList<(string Code, string Name)> Houses,
    IReadOnlyList<string> Lots)
{
    /// <summary>Every batch once.</summary>
    public IEnumerable<GerminatedBatch> Batches => Rows.SelectMany(row => row.Batches);
}

/// <summary>Emergence over the batches sown in a span of days and counted at least once, with every count of them.</summary>
public sealed class ShowGermination(IDbContextFactory<NurseryDbContext> databases)
{
    /// <exception cref="Domain.Refusals.InvalidFields">Days the wrong way round, or a figure outside its range.</exception>
    public async Task<GerminationView> HandleAsync(
        GerminationRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        request.Check();
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var batches = await CountedBatches.LoadAsync(database, actor.SiteId, request.From, request.To, cancellation);
        return new GerminationView(
            GerminationRows.Of(batches.Where(request.Takes), request),
            [.. Choices(batches, batch => (batch.CropCode, batch.CropName))],
            [.. Choices(batches, batch => (batch.HouseCode, batch.HouseName!))],
            [.. batches.Select(batch => batch.LotCode).OfType<string>().Distinct().Order(StringComparer.Ordinal)]);
    }

    private static IEnumerable<(string Code, string Name)> Choices(
        IEnumerable<GerminatedBatch> batches, Func<GerminatedBatch, (string? Code, string Name)> of) =>
        batches.Select(of).Where(choice => choice.Code is not null).Distinct()
            .Select(choice => (choice.Code!, choice.Name))
            .OrderBy(choice => choice.Name, StringComparer.Ordinal).ThenBy(choice => choice.Item1, StringComparer.Ordinal);
}
