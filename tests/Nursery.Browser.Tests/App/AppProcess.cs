using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Nursery.Testing.Database;

namespace Nursery.Browser.Tests.App;

/// <summary>The real program, started as people start it, and killed at the end with everything it started.</summary>
internal sealed class AppProcess : IDisposable
{
    private static readonly TimeSpan StartPatience = TimeSpan.FromMinutes(2);

    private readonly Process _process;
    private readonly StringBuilder _output = new();

    private AppProcess(Process process)
    {
        _process = process;
        process.OutputDataReceived += Keep;
        process.ErrorDataReceived += Keep;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public string Output
    {
        get
        {
            lock (_output)
            {
                return _output.ToString();
            }
        }
    }

    /// <summary>What the program is told of its database and its folder.</summary>
    public static Dictionary<string, string> Variables(TestDatabase database, string data) => new()
    {
        ["ASPNETCORE_ENVIRONMENT"] = "Development",
        ["ConnectionStrings__Nursery"] = database.AppConnectionString,
        ["ConnectionStrings__NurseryOwner"] = database.OwnerConnectionString,
        ["NURSERY_DATA"] = data,

        // It lives for a minute: measuring how to make it faster takes longer than it saves.
        ["DOTNET_TieredPGO"] = "0",
    };

    /// <summary>Serves, and waits until it is ready.</summary>
    public static async Task<AppProcess> StartAsync(Uri address, IEnumerable<string> switches, IReadOnlyDictionary<string, string> environment)
    {
        var app = Start(["serve", "--urls", address.ToString().TrimEnd('/'), .. switches], environment);
        try
        {
            await app.WaitUntilReadyAsync(address);
            return app;
        }
        catch
        {
            app.Dispose();
            throw;
        }
    }

    /// <summary>Runs a verb to its end and gives what it wrote.</summary>
    public static async Task<string> RunAsync(IEnumerable<string> arguments, IReadOnlyDictionary<string, string> environment)
    {
        using var app = Start(arguments, environment);
        using var patience = new CancellationTokenSource(StartPatience);
        await app._process.WaitForExitAsync(patience.Token);
        return app._process.ExitCode == 0
            ? app.Output
            : throw new InvalidOperationException($"The verb ended with code {app._process.ExitCode}:\n{app.Output}");
    }

    private static AppProcess Start(IEnumerable<string> arguments, IReadOnlyDictionary<string, string> environment)
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
            WorkingDirectory = Path.GetTempPath(),
        };
        foreach (var argument in arguments.Prepend(Program()))
        {
            start.ArgumentList.Add(argument);
        }

        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return new AppProcess(Process.Start(start) ?? throw new InvalidOperationException("The app did not start."));
    }

    /// <summary>A port nobody listens on; the same one is used again after a restart.</summary>
    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>Asks it to end, as the service manager of a machine does: its jobs go back to their queue.</summary>
    public async Task StopAsync()
    {
        using var patience = new CancellationTokenSource(StartPatience);
        using var asking = Process.Start("kill", ["-TERM", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        await _process.WaitForExitAsync(patience.Token);
        if (_process.ExitCode != 0)
        {
            throw new InvalidOperationException($"The app ended with code {_process.ExitCode}:\n{Output}");
        }
    }

    /// <summary>Ends it at once, as a power cut would.</summary>
    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            _process.WaitForExit();
        }

        _process.Dispose();
    }

    /// <summary>The program beside these tests, of the same configuration.</summary>
    private static string Program()
    {
        var own = new DirectoryInfo(AppContext.BaseDirectory);
        var framework = own.Name;
        var configuration = own.Parent!.Name;
        return Path.Combine(Repository.Folder, "src", "Nursery.Web", "bin", configuration, framework, "Nursery.Web.dll");
    }

    private async Task WaitUntilReadyAsync(Uri address)
    {
        using var client = new HttpClient { BaseAddress = address, Timeout = TimeSpan.FromSeconds(5) };
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed < StartPatience)
        {
            if (_process.HasExited)
            {
                throw new InvalidOperationException($"The app ended with code {_process.ExitCode}:\n{Output}");
            }

            try
            {
                using var answer = await client.GetAsync(new Uri("/health/ready", UriKind.Relative));
                if (answer.IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (Exception notYet) when (notYet is HttpRequestException or TaskCanceledException)
            {
                // It does not listen yet.
            }

            await Task.Delay(100);
        }

        throw new TimeoutException($"The app was not ready after {StartPatience}:\n{Output}");
    }

    private void Keep(object sender, DataReceivedEventArgs line)
    {
        lock (_output)
        {
            _output.AppendLine(line.Data);
        }
    }
}
