using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Crops;
using Nursery.Application.HeatZones.Learning;
using Nursery.Application.Orders;
using Nursery.Application.Reservations;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Refusals;
using Nursery.Past;

namespace Nursery.Application.History;

/// <summary>What is there after loading.</summary>
/// <param name="Batches">Batches loaded now.</param>
/// <param name="Entries">Entries reported now.</param>
/// <param name="NotAsked">Work the season has that no task asked for, and so nobody could report.</param>
/// <param name="Season">The season, with its truth.</param>
public sealed record PastLoaded(int Batches, int Entries, int NotAsked, PastSeason Season)
{
    /// <summary>Batches of the season that were loaded before.</summary>
    public int BatchesThere => Season.Batches.Count - Batches;
}

/// <summary>Gives the demo nursery an invented season of history, by the use cases people use and with a clock that stands in the past:
/// planning, reserving and reporting go by the rules of their day. A week of sowings is one transaction: whoever looks sees those
/// batches whole, handed over, or not at all. Stopped, it goes on at the next call with what is missing.</summary>
public sealed class LoadPast(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    /// <summary>The demo's season.</summary>
    public const ulong DemoSeed = 20_250_417;

    /// <exception cref="NoDemoNursery">The database holds no demo nursery.</exception>
    /// <param name="seed">The same seed makes the same season.</param>
    /// <param name="folder">Where the season and its truth are written as files; null writes none.</param>
    /// <param name="cancellation">Stops after what is whole.</param>
    public async Task<PastLoaded> HandleAsync(ulong seed, string? folder, CancellationToken cancellation = default)
    {
        PastGround ground;
        await using (var database = await databases.CreateDbContextAsync(cancellation))
        {
            ground = await PastGround.ReadAsync(database, time, cancellation);
        }

        var season = SeasonMaker.Make(ground.Nursery, seed);
        if (folder is not null)
        {
            await WriteAsync(season, folder, cancellation);
        }

        var clock = new PastClock();
        await ReceiveLotsAsync(ground, season, clock, cancellation);
        var cohorts = new PastCohort(
            ground, season, clock, new ImportOrders(databases, lists, starting, clock), new PlanBatch(databases, clock), new ReserveSpaces(databases, clock));
        var (batches, entries, notAsked) = (0, 0, 0);
        foreach (var cohort in season.Batches.GroupBy(batch => batch.Cohort).OrderBy(group => group.Key))
        {
            var told = await databases.RunAsync(database => cohorts.LiveAsync(database, [.. cohort], cancellation), cancellation);
            if (told is { } done)
            {
                (batches, entries, notAsked) = (batches + cohort.Count(), entries + done.Reported, notAsked + done.NotAsked);
            }
        }

        // Benches the past walked on are shared with today's trays: what they ask for is today's again.
        await new RaiseTasks(databases, time).HandleAsync(cancellation);
        if (batches > 0)
        {
            await new LearnZoneOffsets(databases, time).HandleAsync(cancellation);
        }

        return new PastLoaded(batches, entries, notAsked, season);
    }

    private static async Task WriteAsync(PastSeason season, string folder, CancellationToken cancellation)
    {
        Directory.CreateDirectory(folder);
        await File.WriteAllTextAsync(Path.Combine(folder, "truth.json"), SeasonText.Truth(season), cancellation);
        await File.WriteAllTextAsync(Path.Combine(folder, "batches.csv"), SeasonText.Batches(season), cancellation);
        await File.WriteAllTextAsync(Path.Combine(folder, "entries.csv"), SeasonText.Entries(season), cancellation);
    }

    /// <summary>The lots of the season, by the import of the setup; the same file twice changes nothing.</summary>
    private async Task ReceiveLotsAsync(PastGround ground, PastSeason season, PastClock clock, CancellationToken cancellation)
    {
        clock.Set(ground.At(season.Truth.FirstDay, LocalTime.FromMinutesSinceMidnight(6 * 60)));
        var file = new StringBuilder(
            "code,variety,supplier,supplier_lot,form,treated,label_germination_percent,tested_on,seeds,seeds_per_gram\n");
        foreach (var lot in season.Lots)
        {
            var tested = ground.Day.PlusDays(lot.TestedOn).ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
            file.Append(CultureInfo.InvariantCulture, $"{lot.Code},{lot.Variety},Invented for the demo's past,{lot.Code}-P,raw,no,{lot.LabelPercent},{tested},{lot.Seeds},300\n");
        }

        var import = await new ImportSetupList(databases, lists, starting, clock).HandleAsync(
            "seed-lots", Encoding.UTF8.GetBytes(file.ToString()), dryRun: false, ground.Planner, cancellation);
        if (import.Errors.Count > 0)
        {
            throw new InvalidFields(import.Errors);
        }
    }
}
