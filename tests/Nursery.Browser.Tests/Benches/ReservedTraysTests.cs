using Nursery.Browser.Tests.App;
using Xunit;

namespace Nursery.Browser.Tests.Benches;

/// <summary>Trays that are only planned look hollow; the mouse takes hold of them all the same.</summary>
public sealed class ReservedTraysTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    /// <summary>How many are met in the middle of their first tray, and those that are not; what a label covers is left out.</summary>
    private const string Middles =
        """
        () => {
          const answer = { met: 0, missed: [] };
          for (const set of document.querySelectorAll('.set.reserved')) {
            const path = set.querySelector('.trays');
            const [x, y, width, height] = path.getAttribute('d').match(/M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)/).slice(1).map(Number);
            set.scrollIntoView({ block: 'center' });
            const at = new DOMPoint(x + width / 2, y + height / 2).matrixTransform(path.getScreenCTM());
            const hit = document.elementFromPoint(at.x, at.y);
            if (hit?.closest('.set') === set) answer.met++;
            else if (!hit?.closest('.label, .plate')) answer.missed.push(set.getAttribute('aria-label') + ' gave ' + hit?.outerHTML.slice(0, 80));
          }
          return [`${answer.met}`, ...answer.missed];
        }
        """;

    [Fact]
    public async Task Trays_OnlyReserved_AreMetInTheirMiddle()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var met = 0;
        foreach (var house in (await app.SqlAsync<string>("SELECT string_agg(code, ' ' ORDER BY code) FROM houses")).Split(' '))
        {
            await BenchesScreen.OpenAsync(visit, app, house);
            var answer = await visit.Page.EvaluateAsync<string[]>(Middles);
            Assert.True(answer.Length == 1, string.Join('\n', answer.Skip(1)));
            met += int.Parse(answer[0], System.Globalization.CultureInfo.InvariantCulture);
        }

        Assert.True(met > 3, $"only {met} tray sets were tried");
    }
}
