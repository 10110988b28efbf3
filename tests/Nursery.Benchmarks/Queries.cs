using System.Data;
using System.Data.Common;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Npgsql;
using Nursery.Testing.Nurseries;

namespace Nursery.Benchmarks;

/// <summary>Hears what a use case asks the database, and asks the same again without anything around it. So the baseline stays in step
/// with the use case whatever becomes of it.</summary>
internal sealed class Queries : IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>, IDisposable
{
    private readonly List<(string Text, List<NpgsqlParameter> Parameters)> _heard = [];
    private readonly List<IDisposable> _listening = [];
    private bool _on;

    private Queries() => _listening.Add(DiagnosticListener.AllListeners.Subscribe(this));

    public int Count => _heard.Count;

    public static async Task<Queries> OfAsync(Func<Task> work)
    {
        var queries = new Queries { _on = true };
        await work();
        queries._on = false;
        return queries;
    }

    /// <summary>Asks all of them on one connection and reads every value.</summary>
    /// <returns>How many rows came.</returns>
    public async Task<int> AskAsync(TestNursery nursery)
    {
        var rows = 0;
        await using var database = await nursery.DatabaseAsync();
        var connection = (NpgsqlConnection)database.Database.GetDbConnection();
        await connection.OpenAsync();
        foreach (var (text, parameters) in _heard)
        {
            await using var command = new NpgsqlCommand(text, connection);
            command.Parameters.AddRange(parameters.ConvertAll(parameter => parameter.Clone()).ToArray());
            await using var reader = await command.ExecuteReaderAsync(CommandBehavior.Default);
            var values = new object[reader.FieldCount];
            while (await reader.ReadAsync())
            {
                Read(reader, values);
                rows++;
            }
        }

        return rows;
    }

    void IObserver<DiagnosticListener>.OnNext(DiagnosticListener value)
    {
        if (value.Name == "Microsoft.EntityFrameworkCore")
        {
            _listening.Add(value.Subscribe(this));
        }
    }

    void IObserver<KeyValuePair<string, object?>>.OnNext(KeyValuePair<string, object?> value)
    {
        if (_on && value.Value is CommandExecutedEventData { Command: NpgsqlCommand command })
        {
            _heard.Add((command.CommandText, [.. command.Parameters.Cast<NpgsqlParameter>().Select(parameter => parameter.Clone())]));
        }
    }

    void IObserver<DiagnosticListener>.OnCompleted()
    {
    }

    void IObserver<DiagnosticListener>.OnError(Exception error)
    {
    }

    void IObserver<KeyValuePair<string, object?>>.OnCompleted()
    {
    }

    void IObserver<KeyValuePair<string, object?>>.OnError(Exception error)
    {
    }

    public void Dispose() => _listening.ForEach(one => one.Dispose());

    private static void Read(DbDataReader reader, object[] values)
    {
        for (var column = 0; column < values.Length; column++)
        {
            // Ranges and dates as text would cost more than what the use case reads: the provider's own values.
            values[column] = reader.GetValue(column);
        }
    }
}
