using Hangfire;
using Nursery.Application.HeatZones.Alarms;
using Nursery.Application.HeatZones.Learning;
using Nursery.Application.Papers;
using Nursery.Application.Plans;
using Nursery.Application.Reservations;
using Nursery.Application.Runs;
using Nursery.Application.Tasks;

namespace Nursery.Web;

/// <summary>The whole timetable. Hangfire is the clock; every job gives the same rows however often it runs.</summary>
internal static class JobSchedule
{
    public static void Set(IRecurringJobManager recurring, IBackgroundJobClient jobs)
    {
        // Five past the hour: days change on the hour in every zone, and a minute's slack costs nothing.
        recurring.AddOrUpdate<RaiseTasks>("raise-tasks", job => job.HandleAsync(CancellationToken.None), "5 * * * *");
        jobs.Enqueue<RaiseTasks>(job => job.HandleAsync(CancellationToken.None));
        recurring.AddOrUpdate<WatchZones>("watch-zones", job => job.HandleAsync(CancellationToken.None), "*/5 * * * *");
        jobs.Enqueue<WatchZones>(job => job.HandleAsync(CancellationToken.None));
        recurring.AddOrUpdate<LearnZoneOffsets>("learn-zone-offsets", job => job.HandleAsync(CancellationToken.None), "20 9 * * *");
        jobs.Enqueue<LearnZoneOffsets>(job => job.HandleAsync(CancellationToken.None));
        recurring.AddOrUpdate<BuryDeadRuns>("bury-dead-runs", job => job.HandleAsync(CancellationToken.None), Cron.Minutely());
        recurring.AddOrUpdate<ForgetPrints>("forget-prints", job => job.HandleAsync(CancellationToken.None), Cron.Hourly());
        jobs.Enqueue<BuryDeadRuns>(job => job.HandleAsync(CancellationToken.None));
    }

    /// <summary>Hands a placing run to the next free worker.</summary>
    public static void Run(this IBackgroundJobClient jobs, PlacingRun run) =>
        jobs.Enqueue<RunPlacing>(job => job.HandleAsync(run.Id, CancellationToken.None));

    /// <summary>Hands a print of tags to the next free worker.</summary>
    public static void Run(this IBackgroundJobClient jobs, TagsRun run) =>
        jobs.Enqueue<RunTags>(job => job.HandleAsync(run.Id, CancellationToken.None));

    /// <summary>Hands a plan to be computed to the next free worker.</summary>
    public static void Run(this IBackgroundJobClient jobs, PlanRun run) =>
        jobs.Enqueue<RunPlan>(job => job.HandleAsync(run.Id, CancellationToken.None));
}
