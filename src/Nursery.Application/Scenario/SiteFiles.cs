using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using NodaTime;

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
    private const int MostCm = 100_000;

    public static async Task<SiteFiles> ReadAsync(ScenarioFolder folder, TimeProvider time, CancellationToken cancellation)
    {
        var site = await SiteAsync(folder, time, cancellation);
        folder.LoadDay = site.Today(time);
        var people = await PeopleAsync(folder, cancellation);
        var houses = await HousesAsync(folder, site, time, cancellation);
        var benches = await BenchesAsync(folder, houses, time, cancellation);
        var zones = await ZonesAsync(folder, benches, time, cancellation);
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

    private static async Task<Dictionary<string, Bench>> BenchesAsync(
        ScenarioFolder folder, Dictionary<string, House> houses, TimeProvider time, CancellationToken cancellation)
    {
        var benches = new Dictionary<string, Bench>();
        var rows = await folder.ReadAsync(
            "benches.csv", "house,code,name,kind,band,length_cm,width_cm,x_cm,y_cm,spaces,rows,round_order", cancellation);
        foreach (var row in rows)
        {
            if (row.Of("house", houses, "a house") is not { } house)
            {
                continue;
            }

            var bench = BenchOf(row, house, time);
            if (bench.XCm + bench.LengthCm > house.LengthCm || bench.YCm + bench.WidthCm > house.WidthCm)
            {
                row.Fail(bench.XCm + bench.LengthCm > house.LengthCm ? "x_cm" : "y_cm", $"a bench inside house {house.Code}");
            }

            if (benches.Values.FirstOrDefault(other => other.HouseId == house.Id && Overlap(bench, other)) is { } under)
            {
                row.Fail("x_cm", $"a bench over no other: this one lies over bench {under.Code}");
            }

            row.Add("code", benches, bench);
        }

        folder.Done();
        return benches;
    }

    private static Bench BenchOf(CsvRow row, House house, TimeProvider time)
    {
        var kind = row.Word("kind", new Dictionary<string, BenchKind>
        {
            ["germination"] = BenchKind.Germination,
            ["growing"] = BenchKind.Growing,
            ["hardening"] = BenchKind.Hardening,
        });
        if (kind != BenchKind.Growing && !row.IsEmpty("band"))
        {
            row.Fail("band", "empty, unless the bench is a growing bench");
        }

        return new Bench
        {
            Id = NewId.Of<Bench>(time),
            SiteId = house.SiteId,
            HouseId = house.Id,
            Code = row.Text("code", 20),
            Name = row.Text("name"),
            Kind = kind,
            Band = kind == BenchKind.Growing ? row.Word("band", CropFiles.Bands) : null,
            LengthCm = row.Whole("length_cm", 1, MostCm),
            WidthCm = row.Whole("width_cm", 1, MostCm),
            XCm = row.Whole("x_cm", 0, MostCm),
            YCm = row.Whole("y_cm", 0, MostCm),
            Capacity = row.Whole("spaces", 1, 10_000),
            Rows = row.Whole("rows", 1, 100),
            RoundOrder = row.Whole("round_order", 1, 1000),
        };
    }

    private static bool Overlap(Bench one, Bench other) =>
        one.XCm < other.XCm + other.LengthCm && other.XCm < one.XCm + one.LengthCm
        && one.YCm < other.YCm + other.WidthCm && other.YCm < one.YCm + one.WidthCm;

    private static async Task<Dictionary<string, HeatZone>> ZonesAsync(
        ScenarioFolder folder, Dictionary<string, Bench> benches, TimeProvider time, CancellationToken cancellation)
    {
        var zones = new Dictionary<string, HeatZone>();
        foreach (var row in await folder.ReadAsync("heat_zones.csv", "bench,code,first_space,spaces,setpoint_c,reads_c", cancellation))
        {
            if (row.Of("bench", benches, "a bench") is not { } bench)
            {
                continue;
            }

            var run = new SpaceRun(row.Whole("first_space", 1, bench.Capacity), row.Whole("spaces", 1, bench.Capacity));
            var reads = row.NumberOrEmpty("reads_c", 0, 60);
            var zone = new HeatZone
            {
                Id = NewId.Of<HeatZone>(time),
                SiteId = bench.SiteId,
                BenchId = bench.Id,
                Code = row.Text("code", 20),
                Spaces = run,
                SetpointC = row.Number("setpoint_c", 0, 60),
                ReadsC = reads,
                ReadAt = reads is null ? null : Instant.FromDateTimeOffset(time.GetUtcNow()),
            };
            if (bench.Kind != BenchKind.Germination)
            {
                row.Fail("bench", "a germination bench");
            }

            if (run.Last > bench.Capacity || zones.Values.Any(other => other.BenchId == bench.Id && other.Spaces.Overlaps(run)))
            {
                row.Fail("spaces", $"a run that ends on bench {bench.Code} (space {bench.Capacity}) and overlaps no other zone");
            }

            row.Add("code", zones, zone);
        }

        folder.Done();
        return zones;
    }
}
