using Microsoft.Playwright;
using Xunit;

namespace Nursery.Browser.Tests.App;

/// <summary>One person's browser on the app. What the page throws or logs as an error fails the test when the visit ends.</summary>
public sealed class Visit : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly NurseryApp _app;
    private readonly List<string> _errors = [];
    private readonly List<string> _expected = [];

    private Visit(IBrowserContext context, IPage page, NurseryApp app)
    {
        (_context, Page, _app) = (context, page, app);
        page.PageError += (_, error) => Keep($"page error: {error}");
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                Keep($"console: {message.Text} ({message.Location})");
            }
        };
    }

    public IPage Page { get; }

    public IReadOnlyList<string> Errors
    {
        get
        {
            lock (_errors)
            {
                return [.. _errors.Where(error => !_expected.Any(part => error.Contains(part, StringComparison.Ordinal)))];
            }
        }
    }

    public static async Task<Visit> StartAsync(IBrowserContext context, NurseryApp app) =>
        new(context, await context.NewPageAsync(), app);

    /// <summary>An error the test brings about itself, by a part of its text.</summary>
    public void Expect(string part) => _expected.Add(part);

    public async Task SignInAsync(string role)
    {
        var (user, password) = _app.SignIn(role);
        await Page.GotoAsync("/sign-in");
        await Page.GetByLabel("User").FillAsync(user);
        await Page.GetByLabel("Password").FillAsync(password);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Page.WaitForURLAsync(address => !address.Contains("/sign-in", StringComparison.Ordinal));
    }

    /// <summary>Opens a page that holds a circuit, and waits until it answers to clicks.</summary>
    public async Task OpenAsync(string path)
    {
        await Page.GotoAsync(path);
        await Page.Locator("main[data-interactive=true]").WaitForAsync();
    }

    /// <summary>Takes a picture for people to look at: TestResults/pictures/NAME.png.</summary>
    public Task PictureAsync(string name, bool whole = false) => Page.ScreenshotAsync(new()
    {
        Path = Path.Combine(Repository.Pictures, $"{name}.png"),
        FullPage = whole,
    });

    public async ValueTask DisposeAsync()
    {
        await _context.CloseAsync();
        Assert.True(Errors.Count == 0, $"The page reported errors:\n{string.Join('\n', Errors)}\n\nThe program wrote:\n{_app.Output}");
    }

    private void Keep(string error)
    {
        lock (_errors)
        {
            _errors.Add(error);
        }
    }
}
