using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Tasks;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Papers;

/// <summary>What each batch needs next, as tags say it: "move off heat 14 March".</summary>
internal sealed class NextSteps
{
    private readonly Dictionary<Id<Batch>, RoundTask> _next;

    private NextSteps(Dictionary<Id<Batch>, RoundTask> next) => _next = next;

    public static async Task<NextSteps> LoadAsync(NurseryDbContext database, Id<Site> site, CancellationToken cancellation)
    {
        var open = await database.Tasks.AsNoTracking()
            .Where(task => task.SiteId == site && task.State == TaskState.Open).ToListAsync(cancellation);

        // Water and feed are always next and no news on a tag: they are named only when there is nothing else.
        return new NextSteps(open.Where(task => task.BatchId is not null)
            .GroupBy(task => task.BatchId!.Value)
            .ToDictionary(
                group => group.Key,
                group => group.OrderBy(task => task.Kind is TaskKind.FirstWatering or TaskKind.Water or TaskKind.Feed).ThenBy(task => task.DueOn).ThenBy(task => task.Kind).First()));
    }

    public string? Of(Id<Batch> batch) => _next.GetValueOrDefault(batch) is { } task
        ? $"{TaskTitles.Within(task.Kind)} {task.DueOn.ToString("d MMMM", CultureInfo.InvariantCulture)}"
        : null;
}
