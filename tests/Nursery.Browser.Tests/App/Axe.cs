using System.Text.Json;
using Deque.AxeCore.Commons;
using Xunit;

namespace Nursery.Browser.Tests.App;

/// <summary>What axe-core finds on a page as it stands.</summary>
internal static class Axe
{
    private static readonly string _script = new BundledAxeScriptProvider().GetScript();

    public static async Task NothingAsync(Visit visit, string state)
    {
        var page = visit.Page;

        // Run in the page, and only what is wrong brought out: every element that passes would be a megabyte a page.
        if (!await page.EvaluateAsync<bool>("() => !!window.axe"))
        {
            await page.EvaluateAsync(_script);
        }

        var found = (await page.EvaluateAsync(
            """
            async () => {
              const found = await axe.run(document);
              return {
                passes: found.passes.length,
                violations: found.violations.map(({ id, impact, help, nodes }) => ({ id, impact, help, nodes: nodes.slice(0, 3).map(node => node.html) })),
              };
            }
            """))!.Value.Deserialize<Found>(JsonSerializerOptions.Web)!;
        Assert.True(found.Passes > 5, $"{state}: axe looked at too little, only {found.Passes} rules applied");
        Assert.True(
            found.Violations.Count == 0,
            $"{state}:\n{string.Join('\n', found.Violations.Select(rule => $"{rule.Id} ({rule.Impact}): {rule.Help} {string.Join(' ', rule.Nodes)}"))}");
    }

    private sealed record Found(int Passes, IReadOnlyList<Violation> Violations);

    private sealed record Violation(string Id, string? Impact, string Help, IReadOnlyList<string> Nodes);
}
