using Hangfire;
using Hangfire.AspNetCore;
using Hangfire.Dashboard;
using Hangfire.PostgreSql;
using Hangfire.PostgreSql.Factories;
using Nursery.Application.Access;
using Nursery.Application.Setup;
using Nursery.Domain.People;

namespace Nursery.Web.Hosting;

internal static class Jobs
{
    private static readonly PostgreSqlStorageOptions Storage = new()
    {
        SchemaName = "hangfire",

        // Someone waits before a page for what they started.
        QueuePollInterval = TimeSpan.FromSeconds(1),
        UseSlidingInvisibilityTimeout = true,
        InvisibilityTimeout = TimeSpan.FromMinutes(5),
    };

    public static void AddNurseryJobs(this IServiceCollection services, NurseryDatabase database)
    {
        // The container's own storage and activator: Hangfire would else take them from statics, which two hosts of one process overwrite
        // for each other. A job of the one would run with the services of the other, also when those are gone.
        services.AddSingleton<JobStorage>(_ => new PostgreSqlStorage(
            new NpgsqlConnectionFactory(database.AppConnectionString, Storage),
            Storage));
        services.AddSingleton<JobActivator>(provider => new AspNetCoreJobActivator(provider.GetRequiredService<IServiceScopeFactory>()));
        services.AddHangfire((provider, options) => options
            .UseLogProvider(new JobLogs(provider.GetRequiredService<ILoggerFactory>()))
            .UseSimpleAssemblyNameTypeSerializer()
            .UseRecommendedSerializerSettings());
        services.AddHangfireServer(options => options.WorkerCount = 2);
        services.AddHostedService<ScheduleAtStart>();
    }

    /// <summary>The dashboard, for administrators only: its own default would let in anyone behind a proxy on this machine.</summary>
    public static void MapJobs(this WebApplication app) =>
        app.MapHangfireDashboard("/jobs", new DashboardOptions
        {
            Authorization = [new AdministratorsOnly()],
            IsReadOnlyFunc = _ => true,
            DashboardTitle = "Jobs",
            DisplayStorageConnectionString = false,
        });

    private sealed class AdministratorsOnly : IDashboardAuthorizationFilter
    {
        public bool Authorize(DashboardContext context) =>
            context.GetHttpContext().User.HasClaim(ClaimNames.Right, nameof(Right.Admin));
    }

    private sealed class ScheduleAtStart(IRecurringJobManager recurring, IBackgroundJobClient jobs) : IHostedService
    {
        public Task StartAsync(CancellationToken cancellationToken)
        {
            JobSchedule.Set(recurring, jobs);
            return Task.CompletedTask;
        }

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
