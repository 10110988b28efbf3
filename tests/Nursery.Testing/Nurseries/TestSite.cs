using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Testing.Nurseries;

/// <summary>A site in Chicago with two houses, made once for every test that wants one.</summary>
public sealed class TestSite
{
    private readonly TimeProvider _time;

    public TestSite(int number, TimeProvider time)
    {
        _time = time;
        Site = new Site
        {
            Id = NewId.Of<Site>(time),
            Code = $"S{number}",
            Name = $"Test site {number}",
            TimeZone = "America/Chicago",
            Units = Units.UsCustomary,
            Currency = "USD",
            MarginDays = 7,
            Paper = PaperSize.Letter,
        };
        House1 = House("H1", 1);
        House2 = House("H2", 2);
        Heat = Bench(House1, "G1", BenchKind.Germination, null, 24, 1);
        Warm = Bench(House1, "W1", BenchKind.Growing, Band.Warm, 40, 2);
        Cool = Bench(House2, "C1", BenchKind.Growing, Band.Cool, 40, 1);
        Hardening = Bench(House2, "D1", BenchKind.Hardening, null, 20, 2);
        Zones = [Zone("Z80", 1, 10, 80), Zone("Z70", 11, 10, 70), Zone("Z60", 21, 4, 60)];
    }

    public Site Site { get; }

    public House House1 { get; }

    public House House2 { get; }

    /// <summary>24 spaces: 1–10 at 80 °F, 11–20 at 70 °F, 21–24 at 60 °F.</summary>
    public Bench Heat { get; }

    /// <summary>40 spaces in house 1.</summary>
    public Bench Warm { get; }

    /// <summary>40 spaces in house 2.</summary>
    public Bench Cool { get; }

    /// <summary>20 spaces in house 2.</summary>
    public Bench Hardening { get; }

    public IReadOnlyList<HeatZone> Zones { get; }

    public LocalDate Today => Site.Today(_time);

    public IEnumerable<object> Rows => [Site, House1, House2, Heat, Warm, Cool, Hardening, .. Zones];

    private House House(string code, int order) => new()
    {
        Id = NewId.Of<House>(_time),
        SiteId = Site.Id,
        Code = code,
        Name = $"House {order}",
        LengthCm = 3000,
        WidthCm = 900,
        RoundOrder = order,
    };

    private Bench Bench(House house, string code, BenchKind kind, Band? band, int spaces, int order) => new()
    {
        Id = NewId.Of<Bench>(_time),
        SiteId = Site.Id,
        HouseId = house.Id,
        Code = code,
        Name = $"Bench {code}",
        Kind = kind,
        Band = band,
        LengthCm = 600,
        WidthCm = 120,
        XCm = 100,
        YCm = 150 * order,
        Capacity = spaces,
        Rows = 2,
        RoundOrder = order,
    };

    private HeatZone Zone(string code, int first, int spaces, decimal fahrenheit) => new()
    {
        Id = NewId.Of<HeatZone>(_time),
        SiteId = Site.Id,
        BenchId = Heat.Id,
        Code = code,
        Spaces = new SpaceRun(first, spaces),
        SetpointC = TestCrops.Celsius(fahrenheit),
    };
}
