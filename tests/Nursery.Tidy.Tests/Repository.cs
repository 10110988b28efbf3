using System.Diagnostics;

namespace Nursery.Tidy.Tests;

/// <summary>The checkout these tests stand in.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>Files git tracks or would track, relative to the root, with forward slashes.</summary>
    public static IReadOnlyList<string> Files { get; } =
        [.. Run("git", "ls-files --cached --others --exclude-standard").Output
            .Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(file => File.Exists(Path.Combine(Root, file)))];

    public static string Read(string file) => File.ReadAllText(Path.Combine(Root, file));

    public static (int ExitCode, string Output) Run(string program, string arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = Root,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };

        // The build server of a child would outlive the test run.
        start.Environment["MSBUILDDISABLENODEREUSE"] = "1";
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output + error.Result);
    }

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Nursery.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("Nursery.sln is in no folder above the tests");
        }

        return folder.FullName;
    }
}
