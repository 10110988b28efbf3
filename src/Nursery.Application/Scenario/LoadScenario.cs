using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Data.People;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Scenario;

/// <summary>How one person signs in; the password is known nowhere else.</summary>
public sealed record SignIn(Role Role, string User, string Password);

/// <summary>What was loaded, one sign-in a role, and the key of other systems.</summary>
public sealed record ScenarioResult(
    int Houses,
    int Benches,
    int HeatZones,
    int Crops,
    int Varieties,
    int SeedLots,
    int OrderLines,
    int Batches,
    int SownBatches,
    IReadOnlyList<SignIn> SignIns,
    string ApiKey);

/// <summary>Loads an invented nursery from a folder of CSV files (docs/imports.md) into an empty database: all or nothing.</summary>
public sealed class LoadScenario(
    IDbContextFactory<NurseryDbContext> databases,
    ImportOrders importOrders,
    PlanBatch planBatch,
    IPasswordHasher<Person> hasher,
    ILookupNormalizer normalizer,
    TimeProvider time)
{
    /// <summary>Whether nothing was ever set up here.</summary>
    public async Task<bool> IsEmptyAsync(CancellationToken cancellation = default)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        return !await database.Sites.AnyAsync(cancellation);
    }

    /// <exception cref="Malformed">A file is missing or no CSV.</exception>
    /// <exception cref="InvalidFields">Lines that break a rule, each with its file.</exception>
    /// <exception cref="DatabaseNotEmpty">There is a site already.</exception>
    /// <param name="folder">Where the files are.</param>
    /// <param name="beforeCommit">Told the sign-ins while nothing is stored yet: passwords that nobody wrote down would lock everyone out.</param>
    /// <param name="cancellation">Stops loading; nothing is kept.</param>
    public async Task<ScenarioResult> HandleAsync(
        string folder, Func<ScenarioResult, Task>? beforeCommit = null, CancellationToken cancellation = default)
    {
        var scenario = await ScenarioData.ReadAsync(folder, time, cancellation);
        return await databases.RunAsync(
            async database =>
            {
                var result = await LoadAsync(database, scenario, cancellation);
                await (beforeCommit?.Invoke(result) ?? Task.CompletedTask);
                return result;
            },
            cancellation);
    }

    private async Task<ScenarioResult> LoadAsync(
        NurseryDbContext database, ScenarioData scenario, CancellationToken cancellation)
    {
        // Two programs that start on the same empty database: one loads, the other finds it loaded.
        await database.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock(hashtext('load scenario'))", cancellation);
        if (await database.Sites.OrderBy(site => site.Code).Select(site => site.Name).FirstOrDefaultAsync(cancellation) is { } there)
        {
            throw new DatabaseNotEmpty(there);
        }

        var people = new ScenarioPeople(hasher, normalizer, time);
        var (actors, signIns) = AddSite(database, scenario, people);
        var apiKey = people.AddApiKey(database, scenario.Site.Site);
        var planner = actors[signIns.Single(signIn => signIn.Role == Role.HeadGrower).User];
        AddLots(database, scenario, planner);
        await database.SaveChangesAsync(cancellation);
        database.ChangeTracker.Clear();

        var orders = await ImportAsync(database, scenario, planner, cancellation);
        var batches = await new ScenarioPlan(planBatch, time).AddAsync(database, scenario, planner, cancellation);
        await LivePastAsync(database, scenario, batches, actors, cancellation);
        await RaiseAsync(database, scenario, cancellation);
        return new ScenarioResult(
            scenario.Site.Houses.Count,
            scenario.Site.Benches.Count,
            scenario.Site.Zones.Count,
            scenario.Crops.Crops.Count,
            scenario.Crops.Varieties.Count,
            scenario.Crops.Lots.Count,
            orders,
            batches.Count,
            batches.Count(batch => batch.Row.Sown),
            signIns,
            apiKey);
    }

    private (IReadOnlyDictionary<string, Actor> Actors, IReadOnlyList<SignIn> SignIns) AddSite(
        NurseryDbContext database, ScenarioData scenario, ScenarioPeople people)
    {
        database.Sites.Add(scenario.Site.Site);
        database.Houses.AddRange(scenario.Site.Houses.Values);
        database.Benches.AddRange(scenario.Site.Benches.Values);
        database.HeatZones.AddRange(scenario.Site.Zones.Values);
        database.ZoneReadings.AddRange(ScenarioReadings.Of([.. scenario.Site.Zones.Values], Instant.FromDateTimeOffset(time.GetUtcNow())));
        database.Crops.AddRange(scenario.Crops.Crops.Values);
        database.Varieties.AddRange(scenario.Crops.Varieties.Values);
        return people.Add(database, scenario.Site);
    }

    private void AddLots(NurseryDbContext database, ScenarioData scenario, Actor planner)
    {
        database.SeedLots.AddRange(scenario.Crops.Lots.Values);
        foreach (var lot in scenario.Crops.Lots.Values)
        {
            database.Write(scenario.Site.Site, planner, time, new Receipt(lot.StockSeeds), lot: lot.Id);
        }
    }

    private async Task<int> ImportAsync(
        NurseryDbContext database, ScenarioData scenario, Actor planner, CancellationToken cancellation)
    {
        const string file = "orders.csv";
        try
        {
            var (rows, errors) = OrderFile.Read(scenario.OrdersText);
            var result = await importOrders.ImportAsync(database, rows, errors, dryRun: false, planner, cancellation);
            return result.Errors.Count == 0
                ? result.Created
                : throw new InvalidFields([.. result.Errors.Select(error => error with { Field = $"{error.Field} in {file}" })]);
        }
        catch (Malformed failure)
        {
            throw new Malformed($"{file}: {failure.Message}", failure.Errors);
        }
    }

    private async Task LivePastAsync(
        NurseryDbContext database,
        ScenarioData scenario,
        IReadOnlyList<LoadedBatch> batches,
        IReadOnlyDictionary<string, Actor> actors,
        CancellationToken cancellation)
    {
        var staff = scenario.Site.People.Values.Where(person => person.Role == Role.Staff).Select(person => actors[person.User]).ToList();
        var history = new ScenarioHistory(database, scenario.Site.Site, actors, staff, time);
        foreach (var batch in batches.Where(batch => batch.Row.Sown))
        {
            await history.LiveAsync(batch, scenario.LoadDay, cancellation);
        }

        await history.LivePlacesAsync(scenario.Site, scenario.LoadDay, cancellation);
    }

    /// <summary>The tasks of the load day, in the same transaction: whoever sees the site sees its tasks.</summary>
    private async Task RaiseAsync(NurseryDbContext database, ScenarioData scenario, CancellationToken cancellation)
    {
        var live = await database.Batches.OrderBy(batch => batch.Id).Select(batch => batch.Id).ToListAsync(cancellation);
        List<Batch> locked = await database.LockBatchesAsync(live, cancellation);
        await TaskWriting.SyncAsync(database, locked, scenario.LoadDay, time, cancellation);
    }
}
