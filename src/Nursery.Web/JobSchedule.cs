using Hangfire;
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
    }
}
