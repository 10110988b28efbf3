using Nursery.Application.Setup.Lists;

namespace Nursery.Application.Scenario;

/// <summary>Reads a file of a scenario by the reader of its list.</summary>
internal static class ScenarioRows
{
    public static async Task ReadAsync<T>(
        ScenarioFolder folder, string file, SetupList<T> list, NurseryRows rows, CancellationToken cancellation)
        where T : class
    {
        var (needed, later) = list.Info.FileColumns;
        foreach (var line in await folder.ReadAsync(file, needed, later, cancellation))
        {
            if (list.Read(line, rows, null) is { } row)
            {
                line.Add(list.Info.Key, list.Of(rows), row);
            }
        }

        folder.Done();
    }
}
