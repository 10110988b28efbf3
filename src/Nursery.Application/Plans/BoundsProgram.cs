using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.Logging;

namespace Nursery.Application.Plans;

/// <summary>Asks the program that works out what no plan of a problem can cost less than. It runs beside, with low priority; whatever it does
/// wrong (not there, a crash, no end, rubbish) only means that there is no bound.</summary>
public sealed partial class BoundsProgram
{
    /// <summary>Zones as whole numbers up to so many batches: a better bound, in time for small seasons only.</summary>
    private const int SmallSeason = 150;

    /// <summary>An answer is a line or two.</summary>
    private const int MostCharacters = 10_000;

    /// <summary>What the program itself needs besides the solver's time: to start, to read, to make the equations.</summary>
    private static readonly TimeSpan Slack = TimeSpan.FromSeconds(20);
    private static readonly string[] Nice = [.. new[] { "/usr/bin/nice", "/bin/nice" }.Where(File.Exists).Take(1).SelectMany(nice => new[] { nice, "-n", "5" })];
    private readonly ILogger<BoundsProgram> _log;
    private readonly IReadOnlyList<string> _command;
    private readonly TimeSpan _slack;

    public BoundsProgram(ILogger<BoundsProgram> log)
        : this(log, Beside(AppContext.BaseDirectory))
    {
    }

    /// <param name="command">The program and what comes before its own arguments; empty is none.</param>
    /// <param name="slack">Past the solver's seconds it is ended; null is twenty seconds.</param>
    public BoundsProgram(ILogger<BoundsProgram> log, IReadOnlyList<string> command, TimeSpan? slack = null) =>
        (_log, _command, _slack) = (log, command, slack ?? Slack);

    /// <summary>How it is started when it lies beside an app, by the same .NET that runs this.</summary>
    /// <param name="folder">The app's.</param>
    /// <returns>Empty when it is not there.</returns>
    public static IReadOnlyList<string> Beside(string folder)
    {
        var program = Path.Combine(folder, "bounds", "Nursery.Bounds.dll");
        var dotnet = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"));
        return File.Exists(program) && File.Exists(dotnet) ? [dotnet, program] : [];
    }

    /// <param name="problem">As docs/planning.md has it.</param>
    /// <param name="batches">How many it has: what is worked out how.</param>
    /// <param name="limit">For the solver, above 0.</param>
    /// <param name="cancellation">Ends the program; what it found so far counts.</param>
    /// <returns>Cents; null is none.</returns>
    public async Task<long?> BoundAsync(string problem, int batches, TimeSpan limit, CancellationToken cancellation = default)
    {
        if (_command.Count == 0 || limit <= TimeSpan.Zero)
        {
            return null;
        }

        var file = Path.Combine(Path.GetTempPath(), $"nursery-bound-{Guid.NewGuid():N}.json");
        try
        {
            await using (var written = new StreamWriter(new FileStream(file, new FileStreamOptions
            {
                Mode = FileMode.CreateNew,
                Access = FileAccess.Write,
                UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite,
            })))
            {
                await written.WriteAsync(problem.AsMemory(), cancellation);
            }

            var seconds = limit.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture);
            return Read(await AnswerAsync([file, batches <= SmallSeason ? "mip" : "lp", seconds, "--until-input-ends"], limit + _slack, cancellation));
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException or System.ComponentModel.Win32Exception or InvalidOperationException)
        {
            LogNone(_log, failed.Message);
            return null;
        }
        finally
        {
            File.Delete(file);
        }
    }

    private async Task<string> AnswerAsync(string[] arguments, TimeSpan longest, CancellationToken cancellation)
    {
        string[] all = [.. Nice, .. _command, .. arguments];
        var start = new ProcessStartInfo(all[0], all[1..])
        {
            // Its input stays open as long as we are there: it ends itself when that ends.
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start) ?? throw new InvalidOperationException("It did not start.");
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        stop.CancelAfter(longest);
        var (answer, complaints) = (new StringBuilder(), new StringBuilder());
        try
        {
            var complaining = KeepAsync(process.StandardError, complaints, stop.Token);
            await KeepAsync(process.StandardOutput, answer, stop.Token);
            await process.WaitForExitAsync(stop.Token);
            await complaining;
            return process.ExitCode == 0
                ? answer.ToString()
                : throw new InvalidOperationException($"It ended with {process.ExitCode}: {complaints.ToString().Trim()}");
        }
        catch (OperationCanceledException)
        {
            // Whoever cannot wait has what it said so far.
            return answer.ToString();
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
            }
        }
    }

    /// <summary>Reads to the end and keeps the start: a program gone mad may write without end.</summary>
    private static async Task KeepAsync(StreamReader reader, StringBuilder kept, CancellationToken cancellation)
    {
        var block = new char[4096];
        for (int read; (read = await reader.ReadAsync(block, cancellation)) > 0;)
        {
            kept.Append(block, 0, Math.Min(read, MostCharacters - kept.Length));
        }
    }

    /// <summary>The bound of the last whole line that has one: later ones are better.</summary>
    private static long? Read(string answer) =>
        answer[..(answer.LastIndexOf('\n') + 1)].Split('\n', StringSplitOptions.RemoveEmptyEntries).Reverse().Select(BoundOf).FirstOrDefault(bound => bound != null);

    private static long? BoundOf(string line)
    {
        try
        {
            using var json = JsonDocument.Parse(line);
            return json.RootElement.ValueKind == JsonValueKind.Object && json.RootElement.TryGetProperty("bound", out var bound)
                && bound.ValueKind == JsonValueKind.Number && bound.TryGetInt64(out var cents) && cents > 0
                ? cents
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "No bound for a plan: {Why}")]
    private static partial void LogNone(ILogger log, string why);
}
