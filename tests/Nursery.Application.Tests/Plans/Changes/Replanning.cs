using Microsoft.EntityFrameworkCore;
using Npgsql;
using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Reservations;
using Nursery.Domain.Runs;
using Nursery.Planning;
using Nursery.Planning.Checks;
using Nursery.Planning.Problems;
using Nursery.Planning.Validation;
using Nursery.Testing.Nurseries;
using Xunit;
using Bench = Nursery.Domain.Benches.Bench;
using PlannedBatch = Nursery.Application.Batches.PlannedBatch;

namespace Nursery.Application.Tests.Plans.Changes;

/// <summary>Steps of the tests of plans that are kept or tried.</summary>
internal static class Replanning
{
    public const int Steps = 300;

    public static Task<Proposal> KeepAsync(this TestNursery nursery, params PlanEvent[] changes) => nursery.ProposeAsync(PlanAim.Keep, changes);

    public static Task<Proposal> TryAsync(this TestNursery nursery, params PlanEvent[] changes) => nursery.ProposeAsync(PlanAim.Try, changes);

    public static async Task<Proposal> ProposeAsync(this TestNursery nursery, PlanAim aim, params PlanEvent[] changes)
    {
        nursery.Clock.Advance(TimeSpan.FromSeconds(1));
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: Steps, Aim: aim) { Changes = changes }, nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);
        var (seen, proposal) = await nursery.Get<ShowPlan>().LatestAsync(nursery.Manager);
        Assert.True(proposal is not null, $"{seen!.State}: {seen.Message}");
        Assert.Empty(PlanValidator.Check(ProblemCheck.Of(await nursery.ProblemAsync(proposal)).Usable, proposal.Run.Plan!));
        return proposal;
    }

    public static Task<AcceptedPlan> AcceptAsync(this TestNursery nursery, Proposal proposal, params string[] batches) =>
        nursery.Get<AcceptPlan>().HandleAsync(new AcceptPlanRequest(proposal.Run.Id, batches.Length == 0 ? null : batches), nursery.HeadGrower);

    /// <summary>As the run keeps it, what cannot be planned left out.</summary>
    public static async Task<Problem> ProblemAsync(this TestNursery nursery, Proposal proposal)
    {
        await using var rows = await nursery.DatabaseAsync();
        var id = new Id<BackgroundRun>(proposal.Run.Id);
        using var kept = System.Text.Json.JsonDocument.Parse(await rows.BackgroundRuns.Where(run => run.Id == id).Select(run => run.Result!).SingleAsync());
        var problem = PlanningJson.ReadProblem(kept.RootElement.GetProperty("problem").GetString()!);
        var aside = proposal.Run.Plan!.Unplaced.Where(batch => batch.Reason != Planning.Plans.WhyNot.NoSpaceFound).Select(batch => batch.Id).ToHashSet();
        return problem with { Batches = [.. problem.Batches.Where(batch => !aside.Contains(batch.Id))] };
    }

    /// <summary>Four batches that are planned and have their places.</summary>
    public static async Task<List<PlannedBatch>> PlannedSeasonAsync(this TestNursery nursery)
    {
        List<PlannedBatch> planned =
        [
            await nursery.PlanAsync(nursery.Pepper, trays: 8),
            await nursery.PlanAsync(nursery.Lettuce, trays: 6, inDays: 4),
            await nursery.PlanAsync(nursery.Tomato, trays: 5, inDays: 9),
            await nursery.PlanAsync(nursery.Pepper, trays: 4, inDays: 12),
        ];
        await nursery.AcceptAsync(await nursery.ProposeAsync(PlanAim.Whole));
        return planned;
    }

    /// <summary>Trays that stand on a bench since today and hold its spaces.</summary>
    public static async Task<PlannedBatch> GrowingAsync(this TestNursery nursery, string bench, int firstSpace, int trays, int days)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays);
        await nursery.ReserveAsync(batch, bench, firstSpace, nursery.Today, nursery.Today.PlusDays(days));
        await nursery.SowAsync(batch);
        return batch;
    }

    /// <summary>A second warm bench, in house 2.</summary>
    public static async Task<Bench> WarmBenchAsync(this TestNursery nursery, string code, int spaces)
    {
        await using var rows = await nursery.DatabaseAsync();
        var bench = new Bench
        {
            Id = NewId.Of<Bench>(nursery.Clock),
            SiteId = nursery.At.Site.Id,
            HouseId = nursery.At.House2.Id,
            Code = code,
            Name = $"Bench {code}",
            Kind = BenchKind.Growing,
            Band = Band.Warm,
            LengthCm = 600,
            WidthCm = 120,
            XCm = 100,
            YCm = 700,
            Capacity = spaces,
            Rows = 2,
            RoundOrder = 9,
        };
        rows.Add(bench);
        await rows.SaveChangesAsync();
        return bench;
    }

    /// <summary>What a tray set holds: bench, spaces, and days from today on.</summary>
    public static async Task<IReadOnlyList<string>> PlacesAsync(this TestNursery nursery, string traySet)
    {
        await using var rows = await nursery.DatabaseAsync();
        var places = await (
            from place in rows.Reservations
            join set in rows.TraySets on place.TraySetId equals set.Id
            join bench in rows.Benches on place.BenchId equals bench.Id
            where place.SiteId == nursery.At.Site.Id && set.Code == traySet
            select new { Place = place, bench.Code }).ToListAsync();
        return
        [
            .. places.OrderBy(row => row.Place.Days.Start).ThenBy(row => row.Place.Trays.First).Select(row => FormattableString.Invariant(
                $"{row.Place.Trays} on {row.Code} {row.Place.Spaces}, day {Day(row.Place.Days.Start)} to {Day(row.Place.To)}")),
        ];

        int Day(NodaTime.LocalDate day) => NodaTime.Period.DaysBetween(nursery.At.Site.DayOf(NodaTime.Instant.FromDateTimeOffset(TestNursery.Start)), day);
    }

    /// <summary>Every row of the database but those of background runs and of sessions, as one word a table.</summary>
    public static async Task<IReadOnlyDictionary<string, string>> DumpAsync(this TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        var tables = await rows.Database.SqlQuery<string>(
            $"SELECT table_name::text AS \"Value\" FROM information_schema.tables WHERE table_schema = 'public' AND table_name NOT IN ('background_runs', 'migrations_history')").ToListAsync();
        var dump = new Dictionary<string, string>();
        await rows.Database.OpenConnectionAsync();
        foreach (var table in tables)
        {
            await using var command = rows.Database.GetDbConnection().CreateCommand();
            command.CommandText = $"SELECT count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' ORDER BY t::text)), '') FROM {new NpgsqlCommandBuilder().QuoteIdentifier(table)} t";
            dump[table] = (string)(await command.ExecuteScalarAsync())!;
        }

        return dump;
    }
}
