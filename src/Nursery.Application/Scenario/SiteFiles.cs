using Nursery.Application.Benches;
using Nursery.Application.HeatZones;
using Nursery.Application.Houses;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Sites;
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
    /// <summary>Where the files after these find what they refer to.</summary>
    public required NurseryRows Rows { get; init; }

    public static async Task<SiteFiles> ReadAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        var site = await SiteAsync(folder, time, cancellation);
        folder.LoadDay = site.Today(time);
        var people = await PeopleAsync(folder, cancellation);
        var rows = new NurseryRows(site, time);
        await ScenarioRows.ReadAsync(folder, "houses.csv", new HouseList(), rows, cancellation);
        await ScenarioRows.ReadAsync(folder, "benches.csv", new BenchList(), rows, cancellation);
        await ScenarioRows.ReadAsync(folder, "heat_zones.csv", new ZoneList(), rows, cancellation);
        return new SiteFiles(site, people, rows.Houses, rows.Benches, rows.Zones) { Rows = rows };
    }

    private static async Task<Site> SiteAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        const string file = "site.csv";
        var (needed, later) = new SiteList().Info.FileColumns;
        var rows = await folder.ReadAsync(file, needed, later, cancellation);
        if (rows.Count != 1)
        {
            throw new Malformed($"{file} has {rows.Count} rows; it must have one, the site");
        }

        var site = SiteList.SiteOf(rows[0], null, time, demo: true);
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
}
