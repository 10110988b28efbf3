using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Nursery.Data.Batches;
using Nursery.Data.Conventions;
using Nursery.Data.People;
using Nursery.Data.Web;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.Ledger;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Reservations;
using Nursery.Domain.Runs;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Data;

public sealed class NurseryDbContext(DbContextOptions<NurseryDbContext> options)
    : IdentityUserContext<Person, Guid>(options), IDataProtectionKeyContext
{
    public DbSet<Site> Sites => Set<Site>();
    public DbSet<House> Houses => Set<House>();
    public DbSet<Bench> Benches => Set<Bench>();
    public DbSet<Outage> Outages => Set<Outage>();
    public DbSet<HeatZone> HeatZones => Set<HeatZone>();
    public DbSet<ZoneSetpoint> ZoneSetpoints => Set<ZoneSetpoint>();
    public DbSet<ZoneReading> ZoneReadings => Set<ZoneReading>();
    public DbSet<ZoneAlarm> ZoneAlarms => Set<ZoneAlarm>();
    public DbSet<Crop> Crops => Set<Crop>();
    public DbSet<Variety> Varieties => Set<Variety>();
    public DbSet<SeedLot> SeedLots => Set<SeedLot>();
    public DbSet<Customer> Customers => Set<Customer>();
    public DbSet<Order> Orders => Set<Order>();
    public DbSet<OrderLine> OrderLines => Set<OrderLine>();
    public DbSet<OrderDelivery> OrderDeliveries => Set<OrderDelivery>();
    public DbSet<OrderSubstitute> OrderSubstitutes => Set<OrderSubstitute>();
    public DbSet<Allocation> Allocations => Set<Allocation>();
    public DbSet<Batch> Batches => Set<Batch>();
    public DbSet<CodeCounter> CodeCounters => Set<CodeCounter>();
    public DbSet<TraySet> TraySets => Set<TraySet>();
    public DbSet<TrayShare> TrayShares => Set<TrayShare>();
    public DbSet<TrayType> TrayTypes => Set<TrayType>();
    public DbSet<Standing> Standings => Set<Standing>();
    public DbSet<Reservation> Reservations => Set<Reservation>();
    public DbSet<RoundTask> Tasks => Set<RoundTask>();
    public DbSet<RoundSheet> RoundSheets => Set<RoundSheet>();
    public DbSet<LedgerEntry> Ledger => Set<LedgerEntry>();
    public DbSet<PersonSite> PersonSites => Set<PersonSite>();
    public DbSet<BackgroundRun> BackgroundRuns => Set<BackgroundRun>();
    public DbSet<KeptPrint> KeptPrints => Set<KeptPrint>();
    public DbSet<ApiKey> ApiKeys => Set<ApiKey>();
    public DbSet<IdempotentRequest> IdempotentRequests => Set<IdempotentRequest>();
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        base.ConfigureConventions(configurationBuilder);
        ModelConventions.Apply(configurationBuilder);
    }

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.HasPostgresExtension("btree_gist");
        builder.ApplyConfigurationsFromAssembly(typeof(NurseryDbContext).Assembly);

        // Identity names its tables itself; ours are snake case all through.
        builder.Entity<Person>().ToTable("people");
        builder.Entity<IdentityUserClaim<Guid>>().ToTable("person_claims");
        builder.Entity<IdentityUserLogin<Guid>>().ToTable("person_logins");
        builder.Entity<IdentityUserToken<Guid>>().ToTable("person_tokens");
        builder.Entity<DataProtectionKey>(key =>
        {
            key.ToTable("data_protection_keys");
            key.Property(row => row.Xml).HasMaxLength(16_000);
        });
    }
}
