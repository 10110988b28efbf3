using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Nursery.Planning;
using Nursery.Planning.Problems;

namespace Nursery.Benchmarks.Plans;

/// <summary>Asks the program that bounds a problem's cost; it runs in a process of its own.</summary>
internal static class BoundRun
{
    /// <returns>Cents no plan can be cheaper than; null when none was found in time.</returns>
    public static long? Of(Problem problem, bool whole, double seconds)
    {
        var file = Path.Combine(Path.GetTempPath(), $"nursery-bound-{Environment.ProcessId}.json");
        File.WriteAllText(file, PlanningJson.Write(problem));
        try
        {
            var start = new ProcessStartInfo(Environment.ProcessPath!)
            {
                RedirectStandardOutput = true,
                ArgumentList =
                {
                    Program(), file, whole ? "mip" : "lp",
                    seconds.ToString(CultureInfo.InvariantCulture),
                },
            };
            using var process = Process.Start(start)!;
            var answer = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            if (process.ExitCode != 0)
            {
                throw new InvalidOperationException($"The bound ended with code {process.ExitCode}.");
            }

            var bound = JsonDocument.Parse(answer.Trim().Split('\n')[^1]).RootElement.GetProperty("bound");
            return bound.ValueKind == JsonValueKind.Number ? bound.GetInt64() : null;
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>Where the build beside this one left it.</summary>
    private static string Program()
    {
        var built = new DirectoryInfo(AppContext.BaseDirectory);
        var root = built.Parent!.Parent!.Parent!.Parent!.Parent!.FullName;
        return Path.Combine(root, "src", "Nursery.Bounds", "bin", built.Parent.Name, built.Name, "Nursery.Bounds.dll");
    }
}
