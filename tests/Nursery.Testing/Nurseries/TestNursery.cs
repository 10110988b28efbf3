using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using NodaTime;
using Nursery.Application.Setup;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.SeedLots;
using Nursery.Testing.Database;

namespace Nursery.Testing.Nurseries;

/// <summary>
/// A small nursery of its own for one test: a new site, varieties and lots in the test class's database, a clock that stands
/// until it is moved, and every use case over the app's own database role. Opening a second one gives another site.
/// </summary>
public sealed class TestNursery : IAsyncDisposable
{
    private static int _opened;

    private readonly ServiceProvider _services;
    private readonly AsyncServiceScope _scope;
    private readonly int _number = Interlocked.Increment(ref _opened);

    private TestNursery(TestDatabase database, FakeTimeProvider clock)
    {
        Clock = clock;
        _services = NewProcess(database);
        _scope = _services.CreateAsyncScope();
        At = new TestSite(_number, clock);
    }

    /// <summary>Monday, 2 March 2026, 9:00 in Chicago.</summary>
    public static DateTimeOffset Start { get; } = new(2026, 3, 2, 15, 0, 0, TimeSpan.Zero);

    public FakeTimeProvider Clock { get; }

    public TestSite At { get; }

    public Variety Pepper { get; private set; } = null!;

    public Variety Lettuce { get; private set; } = null!;

    public Variety Tomato { get; private set; } = null!;

    /// <summary>100,000 seeds, label germination 0.80.</summary>
    public SeedLot PepperLot { get; private set; } = null!;

    /// <summary>100,000 seeds, 0.90.</summary>
    public SeedLot LettuceLot { get; private set; } = null!;

    /// <summary>1,000 seeds, 0.90.</summary>
    public SeedLot TomatoLot { get; private set; } = null!;

    public LocalDate Today => At.Today;

    public Actor Administrator => As(Role.Administrator);

    public Actor HeadGrower => As(Role.HeadGrower);

    public Actor Staff => As(Role.Staff);

    public Actor Manager => As(Role.Manager);

    public static Task<TestNursery> OpenAsync(TestDatabase database) => OpenAsync(database, new FakeTimeProvider(Start));

    public static async Task<TestNursery> OpenAsync(TestDatabase database, FakeTimeProvider clock)
    {
        var nursery = new TestNursery(database, clock);
        await nursery.AddRowsAsync();
        return nursery;
    }

    /// <summary>A use case, as the app would make it.</summary>
    public T Get<T>()
        where T : notnull => _scope.ServiceProvider.GetRequiredService<T>();

    public Task<NurseryDbContext> DatabaseAsync() =>
        Get<IDbContextFactory<NurseryDbContext>>().CreateDbContextAsync();

    public Actor As(Role role) => new(
        DerivedId.From(At.Site.Id.Value, role.ToString()), $"{role} {_number}", At.Site.Id, RoleRights.Of(role), "test device");

    /// <summary>A second process of the app on the same database and the same clock.</summary>
    public ServiceProvider NewProcess(TestDatabase database)
    {
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddNursery(new NurseryDatabase(database.AppConnectionString, database.OwnerConnectionString));
        services.AddSingleton<TimeProvider>(Clock);
        return services.BuildServiceProvider(validateScopes: true);
    }

    public async ValueTask DisposeAsync()
    {
        await _scope.DisposeAsync();
        await _services.DisposeAsync();
    }

    private async Task AddRowsAsync()
    {
        await using var database = await DatabaseAsync();
        var crops = await database.Crops.ToDictionaryAsync(crop => crop.Code);
        foreach (var crop in new[] { TestCrops.Pepper(), TestCrops.Lettuce(), TestCrops.Tomato() })
        {
            if (crops.TryAdd(crop.Code, crop))
            {
                database.Crops.Add(crop);
            }
        }

        database.AddRange(At.Rows);
        (Pepper, PepperLot) = Add(database, crops["PE"], "PEP", 0.80m, 100_000);
        (Lettuce, LettuceLot) = Add(database, crops["LE"], "LET", 0.90m, 100_000);
        (Tomato, TomatoLot) = Add(database, crops["TO"], "TOM", 0.90m, 1_000);
        await database.SaveChangesAsync();
    }

    private (Variety Variety, SeedLot Lot) Add(
        NurseryDbContext database, Crop crop, string prefix, decimal germination, int seeds)
    {
        var variety = new Variety
        {
            Id = NewId.Of<Variety>(Clock),
            CropId = crop.Id,
            Code = $"{prefix}{_number}",
            Name = $"Test {crop.Name.ToLowerInvariant()} {_number}",
        };
        var lot = NewLot(variety, $"L-{variety.Code}", germination, seeds);
        database.AddRange(variety, lot, Receipt(lot));
        return (variety, lot);
    }

    public SeedLot NewLot(Variety variety, string code, decimal germination, int seeds) => new()
    {
        Id = NewId.Of<SeedLot>(Clock),
        VarietyId = variety.Id,
        Code = code,
        Supplier = "Invented seed house",
        SupplierLot = code,
        Form = SeedForm.Raw,
        Treated = false,
        LabelGermination = germination,
        TestedOn = new LocalDate(2025, 11, 1),
        SeedsPerGram = 150,
        StockSeeds = seeds,
    };

    /// <summary>The entry that brought a lot's stock.</summary>
    public LedgerEntry Receipt(SeedLot lot) => new()
    {
        Id = NewId.Of<LedgerEntry>(Clock),
        SiteId = At.Site.Id,
        LotId = lot.Id,
        WhoId = Administrator.Id,
        WhoName = Administrator.Name,
        HappenedAt = Instant.FromDateTimeOffset(Start),
        RecordedAt = Instant.FromDateTimeOffset(Start),
        Day = Today,
        Kind = LedgerKind.Receipt,
        Value = new Receipt(lot.StockSeeds),
    };
}
