using System.Diagnostics;
using System.Globalization;

namespace Nursery.Data.Cluster;

/// <summary>The distribution's PostgreSQL programs, found and run as the user PostgreSQL accepts (never root).</summary>
internal sealed class PgPrograms
{
    /// <summary>Oldest version with the privileges on schema public that the app's role relies on.</summary>
    public const int OldestVersion = 15;

    /// <summary>The user of Debian's packages; only used when this process is root.</summary>
    public const string ServerUser = "postgres";

    private static readonly string[] _needed = ["initdb", "pg_ctl", "postgres"];

    private readonly string _folder;

    private PgPrograms(string folder, int version) => (_folder, Version) = (folder, version);

    public int Version { get; }

    /// <summary>Whether the programs must give up root's rights.</summary>
    public static bool RunAsServerUser => Environment.IsPrivilegedProcess;

    /// <summary>The newest version installed, or the one that made the existing cluster.</summary>
    public static PgPrograms Find(PgClusterOptions options, string folder, int? madeBy)
    {
        var found = options.VersionFolders.SelectMany(InVersionFolder).Concat(OnPath(options.SearchPath))
            .Where(p => p.Version >= OldestVersion).OrderByDescending(p => p.Version).ToList();
        if (found.Count == 0)
        {
            throw PostgreSqlMissing.NoPrograms(options.VersionFolders);
        }

        if (RunAsServerUser && !File.ReadLines("/etc/passwd").Any(l => l.StartsWith(ServerUser + ":", StringComparison.Ordinal)))
        {
            throw PostgreSqlMissing.NoUser();
        }

        return madeBy is not { } version
            ? found[0]
            : found.Find(p => p.Version == version) ?? throw PostgreSqlMissing.OtherVersion(folder, version);
    }

    public Task<ProgramRun> RunAsync(string program, string inFolder, IEnumerable<string> arguments, CancellationToken cancel) =>
        ExecuteAsync([.. AsServerUser(), Path.Combine(_folder, program), .. arguments], inFolder, input: null, cancel);

    /// <summary>Runs a program with <paramref name="secret"/> in a file that only its user can read; the caller deletes the file.</summary>
    public Task<ProgramRun> RunWithSecretAsync(
        string program, string inFolder, string secretFile, string secret, IEnumerable<string> arguments, CancellationToken cancel) =>
        ExecuteAsync(
            [
                .. AsServerUser(), "/bin/sh", "-c", "umask 077; cat >\"$1\" || exit 1; shift; exec \"$@\"", "sh",
                secretFile, Path.Combine(_folder, program), .. arguments,
            ],
            inFolder, secret, cancel);

    /// <summary>Runs a system program with this process's own rights.</summary>
    public static Task<ProgramRun> RunPlainAsync(IReadOnlyList<string> command, CancellationToken cancel) =>
        ExecuteAsync(command, "/", input: null, cancel);

    public static Task<ProgramRun> RunAsServerUserAsync(IReadOnlyList<string> command, CancellationToken cancel) =>
        ExecuteAsync([.. AsServerUser(), .. command], "/", input: null, cancel);

    private static string[] AsServerUser() => RunAsServerUser
        ? ["setpriv", $"--reuid={ServerUser}", $"--regid={ServerUser}", "--init-groups", "--reset-env"]
        : [];

    // Output goes to a file, never through a pipe: the server started by pg_ctl would hold the pipe open for its whole life.
    private static async Task<ProgramRun> ExecuteAsync(
        IReadOnlyList<string> command, string inFolder, string? input, CancellationToken cancel)
    {
        var output = Path.GetTempFileName();
        try
        {
            var start = new ProcessStartInfo("/bin/sh")
            {
                WorkingDirectory = inFolder,
                UseShellExecute = false,
                RedirectStandardInput = input is not null,
            };
            // Variables such as PGDATA, PGPORT or PGOPTIONS of the caller must not reach the private cluster.
            start.Environment.Clear();
            start.Environment["PATH"] = "/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin";
            start.Environment["LC_ALL"] = "C";
            start.ArgumentList.Add("-c");
            start.ArgumentList.Add(input is null ? "exec \"$@\" >\"$0\" 2>&1 </dev/null" : "exec \"$@\" >\"$0\" 2>&1");
            start.ArgumentList.Add(output);
            foreach (var word in command)
            {
                start.ArgumentList.Add(word);
            }

            using var process = Process.Start(start) ?? throw new InvalidOperationException("/bin/sh did not start.");
            if (input is not null)
            {
                await process.StandardInput.WriteAsync(input.AsMemory(), cancel).ConfigureAwait(false);
                process.StandardInput.Close();
            }

            await process.WaitForExitAsync(cancel).ConfigureAwait(false);
            return new ProgramRun(process.ExitCode, await File.ReadAllTextAsync(output, cancel).ConfigureAwait(false));
        }
        finally
        {
            File.Delete(output);
        }
    }

    private static IEnumerable<PgPrograms> InVersionFolder(string folder) =>
        !Directory.Exists(folder)
            ? []
            : Directory.EnumerateDirectories(folder)
                .Where(d => int.TryParse(Path.GetFileName(d), NumberStyles.None, CultureInfo.InvariantCulture, out _))
                .Select(d => new PgPrograms(Path.Combine(d, "bin"), int.Parse(Path.GetFileName(d), CultureInfo.InvariantCulture)))
                .Where(p => p.IsComplete);

    private static IEnumerable<PgPrograms> OnPath(string searchPath)
    {
        foreach (var config in searchPath.Split(':', StringSplitOptions.RemoveEmptyEntries)
                     .Select(f => Path.Combine(f, "pg_config")).Where(File.Exists))
        {
            // "PostgreSQL 15.18 (Debian 15.18-0+deb12u1)" and the folder of the programs, one a line.
            var lines = Ask(config, "--version", "--bindir");
            if (lines.Length >= 2 && int.TryParse(
                    new string([.. lines[0].SkipWhile(c => !char.IsAsciiDigit(c)).TakeWhile(char.IsAsciiDigit)]),
                    NumberStyles.None, CultureInfo.InvariantCulture, out var version))
            {
                var programs = new PgPrograms(lines[1], version);
                if (programs.IsComplete)
                {
                    yield return programs;
                }
            }
        }
    }

    // Told one option at a time, because pg_config prints several answers in an order of its own.
    private static string[] Ask(string config, params string[] options) =>
    [
        .. options.Select(option =>
        {
            using var process = Process.Start(new ProcessStartInfo(config, option) { RedirectStandardOutput = true });
            var answer = process?.StandardOutput.ReadToEnd().Trim() ?? "";
            process?.WaitForExit();
            return answer;
        }),
    ];

    private bool IsComplete => _needed.All(p => File.Exists(Path.Combine(_folder, p)));
}
