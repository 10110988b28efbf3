using System.Globalization;

namespace Nursery.Data.Cluster;

/// <summary>A server that runs in a data folder, as its postmaster.pid tells: process id first, port in the fourth line.</summary>
internal sealed record RunningServer(int ProcessId, int Port)
{
    public static RunningServer? In(ClusterFolder folder)
    {
        string[] lines;
        try
        {
            lines = File.ReadAllLines(folder.PostmasterFile);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }

        return lines.Length >= 4
            && int.TryParse(lines[0], NumberStyles.None, CultureInfo.InvariantCulture, out var id)
            && int.TryParse(lines[3], NumberStyles.None, CultureInfo.InvariantCulture, out var port)
            && IsServerOf(id, lines[0])
            ? new RunningServer(id, port)
            : null;
    }

    /// <summary>
    /// Process ids come round again, quickly in containers, and PostgreSQL refuses to start while any process of its user bears the
    /// recorded one. Removes the record when that process is something else.
    /// </summary>
    public static void ForgetStale(ClusterFolder folder)
    {
        if (In(folder) is null)
        {
            File.Delete(folder.PostmasterFile);
        }
    }

    private static bool IsServerOf(int id, string recorded)
    {
        try
        {
            if (File.ReadAllText($"/proc/{id}/comm").Trim() != "postgres")
            {
                return false;
            }
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or IOException)
        {
            return false;
        }

        try
        {
            // A server's working folder is its data folder: the record found there must be the one just read.
            return File.ReadLines($"/proc/{id}/cwd/postmaster.pid").FirstOrDefault() == recorded;
        }
        catch (UnauthorizedAccessException)
        {
            // Root in a container without the right to look into other users' processes; connecting with our password decides.
            return true;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or IOException)
        {
            return false;
        }
    }
}
