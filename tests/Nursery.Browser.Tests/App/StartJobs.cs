using Npgsql;
using Nursery.Testing.Database;

namespace Nursery.Browser.Tests.App;

/// <summary>The jobs that a start of the program brings: what they raise would else come in the middle of a test.</summary>
internal static class StartJobs
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    public static async Task EndedAsync(TestDatabase database)
    {
        using var patience = new CancellationTokenSource(Patience);
        await using var connection = new NpgsqlConnection(database.OwnerConnectionString);
        await connection.OpenAsync(patience.Token);
        await using var command = new NpgsqlCommand(
            "SELECT count(*) FROM hangfire.job WHERE statename IN ('Enqueued', 'Processing', 'Awaiting')", connection);
        while ((long)(await command.ExecuteScalarAsync(patience.Token))! > 0)
        {
            await Task.Delay(100, patience.Token);
        }
    }
}
