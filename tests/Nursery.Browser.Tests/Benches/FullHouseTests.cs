using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Browser.Tests.App;
using Nursery.Data;
using Nursery.Testing.Nurseries;
using Xunit;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Benches;

/// <summary>A house of 2,000 trays stays a page a browser can draw.</summary>
public sealed class FullHouseTests(NurseryApp app, ITestOutputHelper output) : IClassFixture<NurseryApp>
{
    /// <summary>A few elements a tray set, not one a tray: 252 tray sets hold the 2,016 trays.</summary>
    private const int MostElements = 3500;

    /// <summary>From the press of '+ day' until the map shows the next day; ten times, and the middle one.</summary>
    private const string StepOneDay =
        """
        async () => {
          const times = [];
          for (let step = 0; step < 10; step++) {
            const shown = () => document.querySelector('.day .date').textContent;
            const busy = document.querySelector('.desk-top');
            const before = shown();
            const from = performance.now();
            [...document.querySelectorAll('.day button')].find(button => button.textContent === '+ day').click();
            while (shown() === before || busy.getAttribute('aria-busy') === 'true') {
              if (performance.now() - from > 30000) { throw new Error(`after 30 s the map still shows ${shown()}`); }
              await new Promise(resolve => requestAnimationFrame(resolve));
            }
            await new Promise(resolve => requestAnimationFrame(() => setTimeout(resolve)));
            times.push(performance.now() - from);
          }
          return times.sort((a, b) => a - b)[5];
        }
        """;

    [Fact]
    public async Task FullHouse_IsDrawnWithAFewElementsATraySet()
    {
        var options = new DbContextOptionsBuilder<NurseryDbContext>();
        options.UseNurseryDatabase(app.ConnectionString);
        await using (var database = new NurseryDbContext(options.Options))
        {
            var site = await database.Sites.SingleAsync();
            var variety = await database.Varieties.OrderBy(row => row.Code).FirstAsync();
            await FullHouse.AddAsync(database, site, variety, TimeProvider.System, new(Guid.CreateVersion7(), "a test"));
        }

        await using var visit = await app.SignInAsAsync("head-grower");
        var screen = await BenchesScreen.OpenAsync(visit, app, FullHouse.Code);

        await Expect(screen.Page.Locator(".map .set")).ToHaveCountAsync(FullHouse.Benches * FullHouse.Spaces / FullHouse.TraysOfASet);
        var elements = await screen.Page.EvaluateAsync<int>("() => document.querySelectorAll('*').length");
        Assert.True(elements < MostElements, $"{elements} elements are too many for a tablet");
        var step = await screen.Page.EvaluateAsync<double>(StepOneDay);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{elements} elements; a step of the day took {step:0} ms"));
        await visit.PictureAsync("benches-full-house");
    }
}
