using Nursery.Domain.People;

namespace Nursery.Application.Germination;

/// <summary>Emergence over the batches sown in a span of days and counted at least once, a row for each crop, variety, lot or house.</summary>
public sealed class GerminationByKey(ShowGermination show)
{
    /// <exception cref="Domain.Refusals.InvalidFields">Days the wrong way round, or a figure outside its range.</exception>
    public async Task<IReadOnlyList<GerminationItem>> HandleAsync(
        GerminationRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var view = await show.HandleAsync(request, actor, cancellation);
        return [.. view.Rows.Select(row => row.Item)];
    }
}
