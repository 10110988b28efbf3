using Testcontainers.PostgreSql;

namespace Nursery.Testing.Database;

/// <summary>A PostgreSQL in a container, for machines that have a container engine but no PostgreSQL programs.</summary>
public static class ContainerServer
{
    public static async Task<string> StartAsync(CancellationToken cancel)
    {
        // Not disposed: the whole test process uses it, and the container engine's reaper removes it when the process is gone.
        var container = new PostgreSqlBuilder("postgres:15").Build();
        await container.StartAsync(cancel).ConfigureAwait(false);
        return container.GetConnectionString();
    }
}
