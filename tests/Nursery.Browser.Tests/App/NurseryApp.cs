using Microsoft.Playwright;
using Npgsql;
using Nursery.Testing.Database;
using Xunit;

namespace Nursery.Browser.Tests.App;

/// <summary>
/// The whole product for one test class (IClassFixture&lt;NurseryApp&gt;): a database of its own with the demo nursery, the real
/// program as a process, and a real browser. It can be killed and started again on the same address.
/// </summary>
public class NurseryApp : IAsyncLifetime
{
    private readonly string _data = Directory.CreateTempSubdirectory("nursery-browser-").FullName;
    private readonly Dictionary<string, (string User, string Password)> _signIns = [];
    private TestDatabase _database = new();
    private AppProcess? _process;
    private IBrowser? _browser;

    /// <summary>Role nursery_app: for adding what the demo does not come with.</summary>
    public string ConnectionString => _database.AppConnectionString;

    public Uri Address { get; } = new($"http://127.0.0.1:{AppProcess.FreePort()}/");

    /// <summary>What the program wrote so far; for messages of failing tests.</summary>
    public string Output => _process?.Output ?? "";

    /// <summary>The key with all scopes that the demo wrote.</summary>
    public string ApiKey { get; private set; } = "";

    /// <summary>Whether the demo nursery is loaded; an empty one has an administrator only.</summary>
    protected virtual bool Demo => true;

    private Dictionary<string, string> ProcessVariables => AppProcess.Variables(_database, _data);

    public async Task InitializeAsync()
    {
        if (Demo)
        {
            var loaded = await LoadedDemo.Once;
            _database = loaded.Database.Copy();
            await _database.InitializeAsync();
            ReadSignIns(loaded.SignIns);
        }
        else
        {
            await _database.InitializeAsync();
            await AddAdministratorAsync();
        }

        await StartAsync();
        await StartJobs.EndedAsync(_database);
        _browser = await TestBrowser.Once;
    }

    public async Task DisposeAsync()
    {
        Kill();
        await _database.DisposeAsync();
        Directory.Delete(_data, recursive: true);
    }

    public async Task StartAsync() => _process = await AppProcess.StartAsync(Address, [], ProcessVariables);

    /// <summary>Ends the program at once, as a power cut would; <see cref="StartAsync"/> brings it back.</summary>
    public void Kill()
    {
        _process?.Dispose();
        _process = null;
    }

    /// <summary>A browser of its own (cookies, storage), not signed in.</summary>
    public async Task<Visit> VisitAsync(int width, int height, BrowserNewContextOptions? options = null)
    {
        options ??= new();
        options.BaseURL = Address.ToString();
        options.ViewportSize = new() { Width = width, Height = height };
        options.Locale ??= "en-US";
        var context = await _browser!.NewContextAsync(options);
        return await Visit.StartAsync(context, this);
    }

    /// <summary>A browser signed in as the first demo person of a role (administrator, head-grower, staff, manager).</summary>
    public async Task<Visit> SignInAsAsync(string role, int width = 1280, int height = 800, BrowserNewContextOptions? options = null)
    {
        var visit = await VisitAsync(width, height, options);
        await visit.SignInAsync(role);
        return visit;
    }

    public (string User, string Password) SignIn(string role) => _signIns[role];

    /// <summary>For states the demo does not come with, and for looking past the screens.</summary>
    public async Task<T> SqlAsync<T>(string statement)
    {
        await using var connection = new NpgsqlConnection(_database.OwnerConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(statement, connection);
        return (T)Convert.ChangeType(await command.ExecuteScalarAsync() ?? 0, typeof(T), System.Globalization.CultureInfo.InvariantCulture);
    }

    private void ReadSignIns(IEnumerable<string> lines)
    {
        foreach (var words in lines.Select(line => line.Split(' ')))
        {
            if (words is ["api-key", var key])
            {
                ApiKey = key;
            }
            else
            {
                _signIns.TryAdd(words[0], (words[1], words[2]));
            }
        }
    }

    /// <summary>As people do it at the machine: the verb says a password once.</summary>
    private async Task AddAdministratorAsync()
    {
        const string user = "ada";
        const string says = $"{user} signs in with the password ";
        var output = await AppProcess.RunAsync(
            ["user", "add", "--user", user, "--name", "Ada Thistlewick", "--role", "administrator", "--site", "TW", "--site-name", "Thistlewick", "--zone", "America/Chicago"],
            ProcessVariables);
        var line = output.Split('\n').Single(line => line.StartsWith(says, StringComparison.Ordinal));
        _signIns["administrator"] = (user, line[says.Length..].Trim());
    }
}
