using Deque.AxeCore.Playwright;
using Xunit;

namespace Nursery.Browser.Tests.App;

/// <summary>What axe-core finds on a page as it stands.</summary>
internal static class Axe
{
    public static async Task NothingAsync(Visit visit, string state)
    {
        var axe = await visit.Page.RunAxe();
        Assert.True(axe.Passes.Length > 5, $"{state}: axe looked at too little, only {axe.Passes.Length} rules applied");
        Assert.True(
            axe.Violations.Length == 0,
            $"{state}:\n{string.Join('\n', axe.Violations.Select(rule => $"{rule.Id} ({rule.Impact}): {rule.Help} {string.Join(' ', rule.Nodes.Take(3).Select(node => node.Html))}"))}");
    }
}
