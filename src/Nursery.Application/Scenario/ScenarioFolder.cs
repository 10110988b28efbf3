using NodaTime;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Scenario;

/// <summary>The CSV files of one folder, and everything found wrong in them.</summary>
internal sealed class ScenarioFolder(string folder)
{
    private const int MaxRows = 50_000;

    private readonly List<FieldError> _errors = [];

    /// <summary>Day that +0 means; known once the site's zone is.</summary>
    public LocalDate LoadDay { get; set; }

    /// <summary>The rows of a file, its columns in this order.</summary>
    /// <exception cref="Malformed">It is missing, or not CSV.</exception>
    public Task<IReadOnlyList<CsvRow>> ReadAsync(string file, string columns, CancellationToken cancellation) =>
        ReadAsync(file, columns.Split(','), [], cancellation);

    /// <inheritdoc cref="ReadAsync(string, string, CancellationToken)"/>
    public async Task<IReadOnlyList<CsvRow>> ReadAsync(
        string file, IReadOnlyList<string> needed, IReadOnlyList<string> later, CancellationToken cancellation)
    {
        var text = await TextAsync(file, cancellation);
        return Named(
            file,
            () => CsvText.Read(text, needed, MaxRows, later, CsvRow.Lacking)
                .Select(row => new CsvRow(file, row.Line, row.Fields, LoadDay, _errors))
                .ToList());
    }

    public async Task<string> TextAsync(string file, CancellationToken cancellation)
    {
        var path = Path.Combine(folder, file);
        if (!File.Exists(path))
        {
            throw new Malformed($"{file} is missing in the folder {folder}");
        }

        var bytes = await File.ReadAllBytesAsync(path, cancellation);
        return Named(file, () => CsvText.Decode(bytes));
    }

    /// <summary>Goes no further with errors: values after an error stand for nothing.</summary>
    /// <exception cref="InvalidFields">There are errors.</exception>
    public void Done()
    {
        if (_errors.Count > 0)
        {
            throw new InvalidFields([.. _errors]);
        }
    }

    private static T Named<T>(string file, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Malformed failure)
        {
            throw new Malformed($"{file}: {failure.Message}", [.. failure.Errors.Select(error => error with { Field = $"{error.Field} in {file}" })]);
        }
        catch (TooLarge failure)
        {
            throw new TooLarge($"{file}: {failure.Message}");
        }
    }
}
