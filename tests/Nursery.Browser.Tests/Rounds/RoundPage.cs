using Microsoft.Playwright;
using Nursery.Browser.Tests.App;

namespace Nursery.Browser.Tests.Rounds;

/// <summary>The round as a person finds their way on it.</summary>
internal sealed class RoundPage(Visit visit)
{
    public IPage Page => visit.Page;

    /// <summary>Shows "all sent", how much is not sent, and what needs attention.</summary>
    public ILocator Outbox => Page.Locator("#outbox");

    public static async Task<RoundPage> OpenAsync(Visit visit)
    {
        await visit.Page.GotoAsync("/rounds");
        return new RoundPage(visit);
    }

    /// <summary>The open single cards of a kind, outside groups.</summary>
    public ILocator Open(string kind) => Page.Locator($".stop > .tick-card.open[data-kind={kind}]");

    /// <summary>A card that stays the same one whatever becomes of it.</summary>
    public async Task<ILocator> FirstOpenAsync(string kind)
    {
        var id = await Open(kind).First.GetAttributeAsync("data-task");
        return Card(id!);
    }

    public ILocator Card(string task) => Page.Locator($"[data-task=\"{task}\"]");

    public static ILocator Box(ILocator card) => card.Locator("> .tick-row > .box");

    public static ILocator Press(ILocator card, string words) => card.GetByRole(AriaRole.Button, new() { Name = words, Exact = true });

    public Task SentAsync() => Assertions.Expect(Outbox).ToHaveTextAsync("all sent");

    public static Task SaysAsync(ILocator card, string words) => Assertions.Expect(card.Locator("> .tick-said")).ToHaveTextAsync(words);
}
