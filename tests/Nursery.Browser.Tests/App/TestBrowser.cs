using Microsoft.Playwright;

namespace Nursery.Browser.Tests.App;

/// <summary>One browser for all tests; every visit has cookies and storage of its own. It ends with the process.</summary>
internal static class TestBrowser
{
    /// <summary>Machines that run tests are busy: a page that answers late is no error, one that never does is.</summary>
    private const float PatienceMilliseconds = 30_000;

    private static readonly string[] Flags =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync",
    ];

    private static readonly Lazy<Task<IBrowser>> _once = new(LaunchAsync);

    public static Task<IBrowser> Once => _once.Value;

    private static async Task<IBrowser> LaunchAsync()
    {
        Assertions.SetDefaultExpectTimeout(PatienceMilliseconds);
        var playwright = await Playwright.CreateAsync();
        return await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("NURSERY_CHROMIUM") ?? "/usr/bin/chromium",
            Headless = true,
            Args = Flags,
        });
    }
}
