using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Nursery.Application.Access;
using Nursery.Application.People;
using Nursery.Application.Rounds;
using Nursery.Application.Setup;
using Nursery.Application.Tasks;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Hosting;

namespace Nursery.Benchmarks;

/// <summary>The whole program on a port of its own, over a nursery whose heat is full of batches sown on six days, the last a week ago:
/// each wants water and a look for what came up, and some to be carried off the heat. Everything in it came through the use
/// cases. Its clock stands.</summary>
internal sealed partial class ServedNursery : IAsyncDisposable
{
    private const int Spaces = 100;
    private const int SowingDays = 6;
    private const int DaysSinceSowing = 7;

    private readonly TestDatabase _database = new();
    private WebApplication _app = null!;

    public TestNursery Nursery { get; private set; } = null!;

    public string OwnerConnectionString => _database.OwnerConnectionString;

    public string AppConnectionString => _database.AppConnectionString;

    private Uri Address => new(_app.Urls.Single());

    /// <param name="batches">How many lie on the heat, of two trays each.</param>
    public static async Task<ServedNursery> OpenAsync(int batches)
    {
        var served = new ServedNursery();
        await served._database.InitializeAsync();
        var clock = new FakeTimeProvider(TestNursery.Start);
        served._app = NurseryHost.Build(
            ["--urls", "http://127.0.0.1:0"],
            new NurseryDatabase(served._database.AppConnectionString, served._database.OwnerConnectionString),
            builder => builder.Services.AddSingleton<TimeProvider>(clock));
        await served._app.StartAsync();
        served.Nursery = await TestNursery.OpenAsync(served._database, clock);
        await served.FillAsync(batches);
        clock.Advance(TimeSpan.FromDays(DaysSinceSowing));
        await served.Nursery.Get<RaiseTasks>().HandleAsync();
        return served;
    }

    /// <summary>Someone who signed in with a browser.</summary>
    public async Task<HttpClient> SignedInAsync()
    {
        var person = await _app.Services.GetRequiredService<AddFirstPerson>().HandleAsync(new FirstPersonRequest(
            new Dictionary<string, string> { ["user"] = "walker", ["name"] = "Walker", ["role"] = "staff" },
            new Dictionary<string, string> { ["code"] = Nursery.At.Site.Code }));
        // Cookies by hand: a browser of today would take those of our standing clock for long over.
        var client = new HttpClient(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = Address };
        using var page = await client.GetAsync(new Uri("/sign-in", UriKind.Relative));
        using var post = new HttpRequestMessage(HttpMethod.Post, new Uri("/sign-in", UriKind.Relative));
        post.Headers.Add("Cookie", Cookies(page));
        post.Content = new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["Input.User"] = person.User,
            ["Input.Password"] = person.Password,
            ["_handler"] = "sign-in",
            ["__RequestVerificationToken"] = Token().Match(await page.Content.ReadAsStringAsync()).Groups[1].Value,
        });
        using var answer = await client.SendAsync(post);
        client.DefaultRequestHeaders.Add("Cookie", Cookies(answer));
        return client;
    }

    /// <summary>A program with a key.</summary>
    public async Task<HttpClient> WithKeyAsync()
    {
        var key = await _app.Services.GetRequiredService<IssueApiKey>().HandleAsync("tablets", [Right.Ledger], Nursery.Administrator);
        var client = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = Address };
        client.DefaultRequestHeaders.Authorization = new("Bearer", key.Secret);
        return client;
    }

    public async ValueTask DisposeAsync()
    {
        await Nursery.DisposeAsync();
        await _app.StopAsync();
        await _app.DisposeAsync();
        await _database.DisposeAsync();
    }

    private static string Cookies(HttpResponseMessage answer) =>
        string.Join("; ", answer.Headers.GetValues("Set-Cookie").Select(cookie => cookie.Split(';')[0]).Where(cookie => !cookie.EndsWith('=')));

    private async Task FillAsync(int batches)
    {
        await using (var database = await Nursery.DatabaseAsync())
        {
            for (var bench = 0; bench * Spaces < batches * 2; bench++)
            {
                AddHeat(database, bench);
            }

            await database.SaveChangesAsync();
        }

        var watered = new List<EntryRequest>();
        for (var number = 0; number < batches; number++)
        {
            if (number > 0 && number % (((batches - 1) / SowingDays) + 1) == 0)
            {
                Nursery.Clock.Advance(TimeSpan.FromDays(1));
            }

            var (bench, space) = Math.DivRem(number * 2, Spaces);
            var batch = await Nursery.PlanAsync(number % 3 == 0 ? Nursery.Lettuce : Nursery.Pepper);
            await Nursery.ReserveAsync(batch, BenchCode(bench), space + 1, Nursery.Today, Nursery.Today.PlusDays(20));
            await Nursery.SowAsync(batch);
            watered.Add(Nursery.Entry(new TaskDone((await Nursery.TaskAsync(batch.Id, TaskKind.FirstWatering)).Id.Value)));
        }

        if ((await Nursery.Get<RecordEntries>().HandleAsync(watered, Nursery.Staff)).FirstOrDefault(result => result.Problem is not null) is { } refused)
        {
            throw new InvalidOperationException("A first watering was refused", refused.Problem);
        }
    }

    private void AddHeat(NurseryDbContext database, int number)
    {
        var bench = new Bench
        {
            Id = NewId.Of<Bench>(Nursery.Clock),
            SiteId = Nursery.At.Site.Id,
            HouseId = Nursery.At.House1.Id,
            Code = BenchCode(number),
            Name = $"Heat bench {number + 1}",
            Kind = BenchKind.Germination,
            LengthCm = 1500,
            WidthCm = 120,
            XCm = 100,
            YCm = 500 + (150 * number),
            Capacity = Spaces,
            Rows = 2,
            RoundOrder = 10 + number,
        };
        database.AddRange(bench, new HeatZone
        {
            Id = NewId.Of<HeatZone>(Nursery.Clock),
            SiteId = bench.SiteId,
            BenchId = bench.Id,
            Code = $"ZH{number + 1}",
            Spaces = new SpaceRun(1, Spaces),
            SetpointC = 22,
        });
    }

    private static string BenchCode(int bench) => $"H{bench + 1}";

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
