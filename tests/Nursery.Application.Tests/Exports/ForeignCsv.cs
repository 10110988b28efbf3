using Npgsql;

namespace Nursery.Application.Tests.Exports;

/// <summary>A CSV file read by a program of others: PostgreSQL's COPY (FORMAT csv), which refuses what breaks RFC 4180.</summary>
internal static class ForeignCsv
{
    /// <summary>The header and the rows; an empty field is empty.</summary>
    public static async Task<(IReadOnlyList<string> Header, List<string[]> Rows)> ReadAsync(byte[] file, string connectionString)
    {
        var text = System.Text.Encoding.UTF8.GetString(file);
        var header = text[..text.IndexOf("\r\n", StringComparison.Ordinal)].Split(',');
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync();
        await using (var table = new NpgsqlCommand(
            $"CREATE TEMP TABLE read_back (line bigint GENERATED ALWAYS AS IDENTITY, {string.Join(", ", Quoted(header).Select(column => $"{column} text"))})", connection))
        {
            await table.ExecuteNonQueryAsync();
        }

        await using (var copy = await connection.BeginTextImportAsync(
            $"COPY read_back ({string.Join(", ", Quoted(header))}) FROM STDIN (FORMAT csv, HEADER MATCH, ENCODING 'UTF8')"))
        {
            await copy.WriteAsync(text);
        }

        var rows = new List<string[]>();
        await using var select = new NpgsqlCommand($"SELECT {string.Join(", ", Quoted(header))} FROM read_back ORDER BY line", connection);
        await using var reader = await select.ExecuteReaderAsync();
        while (await reader.ReadAsync())
        {
            rows.Add([.. Enumerable.Range(0, header.Length).Select(column => reader.IsDBNull(column) ? "" : reader.GetString(column))]);
        }

        return (header, rows);
    }

    private static IEnumerable<string> Quoted(string[] columns) => columns.Select(column => $"\"{column}\"");
}
