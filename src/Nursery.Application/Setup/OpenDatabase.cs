using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.Logging;
using Nursery.Data.Cluster;
using Nursery.Data.Schema;

namespace Nursery.Application.Setup;

/// <summary>The database of this process: one that was named (ConnectionStrings:Nursery), or the private PostgreSQL.</summary>
public sealed class OpenDatabase : IAsyncDisposable
{
    private readonly PgCluster? _cluster;

    private OpenDatabase(NurseryDatabase where, PgCluster? cluster) => (Where, _cluster) = (where, cluster);

    public NurseryDatabase Where { get; }

    /// <summary>Whether it is our own private PostgreSQL: only there demo data is loaded unasked.</summary>
    public bool IsPrivate => _cluster is not null;

    /// <summary>The folder of the private PostgreSQL and of demo-sign-in.txt.</summary>
    public static string DataFolder => PgClusterOptions.DefaultDataFolder();

    /// <param name="configuration">ConnectionStrings:Nursery (the app's role) and, for migrations, NurseryOwner.</param>
    /// <param name="logger">Told what is started.</param>
    /// <param name="owning">Whether to keep the private cluster for the life of the process (serve), or only to use it (other verbs).</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="StartRefused">There is no PostgreSQL, or another process has the data folder.</exception>
    public static async Task<OpenDatabase> FindAsync(
        IConfiguration configuration, ILogger logger, bool owning, CancellationToken cancellation = default)
    {
        if (configuration.GetConnectionString("Nursery") is { Length: > 0 } named)
        {
            var owner = configuration.GetConnectionString("NurseryOwner");
            return new OpenDatabase(new NurseryDatabase(named, string.IsNullOrEmpty(owner) ? named : owner), null);
        }

        try
        {
            var options = PgClusterOptions.FromEnvironment();
            var cluster = owning
                ? await PgCluster.StartAsync(options, logger, cancellation)
                : await PgCluster.UseAsync(options, logger, cancellation);
            return new OpenDatabase(new NurseryDatabase(cluster.AppConnectionString, cluster.OwnerConnectionString), cluster);
        }
        catch (ClusterRefusal refusal)
        {
            throw new StartRefused(refusal.Message, refusal);
        }
    }

    public Task MigrateAsync(CancellationToken cancellation = default) =>
        SchemaUpdate.ApplyAsync(Where.OwnerConnectionString, Where.AppConnectionString, cancellation);

    public ValueTask DisposeAsync() => _cluster?.DisposeAsync() ?? ValueTask.CompletedTask;
}
