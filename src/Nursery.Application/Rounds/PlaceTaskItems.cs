using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>A task with where it stands in the walk; null is after everything that has a number.</summary>
internal sealed record WalkedTask(int? HouseOrder, int? BenchOrder, TaskItem Item);

/// <summary>The tasks of benches and houses on a day.</summary>
internal static class PlaceTaskItems
{
    public static async Task<IReadOnlyList<WalkedTask>> LoadAsync(
        NurseryDbContext database, LocalDate day, TaskSayings said, Actor actor, CancellationToken cancellation)
    {
        var tasks = await database.Tasks.AsNoTracking()
            .Where(task => task.SiteId == actor.SiteId
                && task.BatchId == null
                && ((task.State == TaskState.Open && task.DueOn <= day) || (task.State == TaskState.Done && task.DoneOn == day)))
            .ToListAsync(cancellation);
        var benches = await database.Benches.AsNoTracking().Where(bench => bench.SiteId == actor.SiteId).ToListAsync(cancellation);
        var houses = await database.Houses.AsNoTracking().Where(house => house.SiteId == actor.SiteId)
            .ToDictionaryAsync(house => house.Id, cancellation);
        var trays = (await database.Standings.Where(row => row.SiteId == actor.SiteId)
            .Select(row => new { row.BenchId, row.Trays }).ToListAsync(cancellation))
            .ToLookup(row => row.BenchId, row => row.Trays.Count);
        return
        [
            .. tasks.Select(task =>
            {
                var bench = benches.SingleOrDefault(row => row.Id == task.BenchId);
                var house = houses[bench?.HouseId ?? task.HouseId!.Value];
                var there = bench is null
                    ? benches.Where(row => row.HouseId == house.Id).Sum(row => trays[row.Id].Sum())
                    : trays[bench.Id].Sum();
                return new WalkedTask(house.RoundOrder, bench?.RoundOrder, new TaskItem(
                    task.Id.Value, task.Kind, bench?.Name ?? house.Name, null, null, null, null, null, null,
                    there, 0, 0, house.Code, bench?.Code, null, null, task.DueOn, task.State, task.Why, task.DoneOn, task.DoneBy,
                    DoneEntryId: task.State == TaskState.Done ? said.DoneOf(task)?.Id.Value : null,
                    PutOff: task.State == TaskState.Open ? said.PutOffOf(task) : null)
                {
                    Minutes = TaskMinutes.Of(task.Kind, there, 0),
                });
            }),
        ];
    }
}
