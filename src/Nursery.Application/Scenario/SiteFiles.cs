using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.Scenario;

internal sealed record PersonRow(string User, string Name, Role Role);

/// <summary>The site, its people, houses, benches and heat zones, as their files tell them.</summary>
internal sealed record SiteFiles(
    Site Site,
    IReadOnlyDictionary<string, PersonRow> People,
    IReadOnlyDictionary<string, House> Houses,
    IReadOnlyDictionary<string, Bench> Benches,
    IReadOnlyDictionary<string, HeatZone> Zones)
{
    internal const int MostCm = 100_000;

    public static async Task<SiteFiles> ReadAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        var site = await SiteAsync(folder, time, cancellation);
        folder.LoadDay = site.Today(time);
        var people = await PeopleAsync(folder, cancellation);
        var houses = await HousesAsync(folder, site, time, cancellation);
        var benches = await BenchFiles.BenchesAsync(folder, houses, time, cancellation);
        var zones = await BenchFiles.ZonesAsync(folder, benches, time, cancellation);
        return new SiteFiles(site, people, houses, benches, zones);
    }

    private static async Task<Site> SiteAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        const string file = "site.csv";
        var rows = await folder.ReadAsync(file, "code,name,time_zone,units,currency,margin_days,paper", cancellation);
        if (rows.Count != 1)
        {
            throw new Malformed($"{file} has {rows.Count} rows; it must have one, the site");
        }

        var row = rows[0];
        var site = new Site
        {
            Id = NewId.Of<Site>(time),
            Code = row.Text("code", 20),
            Name = row.Text("name"),
            TimeZone = row.Text("time_zone"),
            Units = row.Word("units", new Dictionary<string, Units> { ["us"] = Units.UsCustomary, ["metric"] = Units.Metric }),
            Currency = row.Text("currency", 3),
            MarginDays = row.Whole("margin_days", 0, 60),
            Paper = row.Word("paper", new Dictionary<string, PaperSize>
            {
                ["letter"] = PaperSize.Letter,
                ["a4"] = PaperSize.A4,
                ["roll"] = PaperSize.Roll,
            }),
            IsDemo = true,
        };
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(site.TimeZone) is null)
        {
            row.Fail("time_zone", "a zone of the IANA time zone database, such as America/Chicago");
        }

        if (site.Currency.Length != 3 || !site.Currency.All(char.IsAsciiLetterUpper))
        {
            row.Fail("currency", "three capital letters of ISO 4217");
        }

        folder.Done();
        return site;
    }

    private static async Task<Dictionary<string, PersonRow>> PeopleAsync(ScenarioFolder folder, CancellationToken cancellation)
    {
        const string file = "people.csv";
        var people = new Dictionary<string, PersonRow>(StringComparer.OrdinalIgnoreCase);
        foreach (var row in await folder.ReadAsync(file, "user,name,role", cancellation))
        {
            var person = new PersonRow(row.Text("user", 40), row.Text("name"), row.Word("role", RoleWords.All));
            if (!person.User.All(sign => char.IsAsciiLetterOrDigit(sign) || sign is '-' or '.' or '_'))
            {
                row.Fail("user", "letters a–z, digits, - . _");
            }

            row.Add("user", people, person);
        }

        folder.Done();
        var missing = RoleWords.All.Where(role => people.Values.All(person => person.Role != role.Value)).Select(role => role.Key).ToList();
        return missing.Count == 0
            ? people
            : throw new InvalidFields($"role in {file}", string.Join(", ", missing), "each role at least once; none has this one");
    }

    private static async Task<Dictionary<string, House>> HousesAsync(
        ScenarioFolder folder, Site site, TimeProvider time, CancellationToken cancellation)
    {
        var houses = new Dictionary<string, House>();
        foreach (var row in await folder.ReadAsync("houses.csv", "code,name,length_cm,width_cm,round_order", cancellation))
        {
            row.Add("code", houses, new House
            {
                Id = NewId.Of<House>(time),
                SiteId = site.Id,
                Code = row.Text("code", 20),
                Name = row.Text("name"),
                LengthCm = row.Whole("length_cm", 1, MostCm),
                WidthCm = row.Whole("width_cm", 1, MostCm),
                RoundOrder = row.Whole("round_order", 1, 1000),
            });
        }

        folder.Done();
        return houses;
    }
}
