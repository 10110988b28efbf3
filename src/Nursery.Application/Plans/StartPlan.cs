using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Plans.Changes;
using Nursery.Application.Runs;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Planning;

namespace Nursery.Application.Plans;

/// <summary>Queues the computing of a plan. Whoever hosts the jobs gives the run to <see cref="RunPlan"/>. Nothing of the season changes
/// before someone accepts it.</summary>
public sealed class StartPlan(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    private const double UsualSeconds = 30;
    private const double MostSeconds = 3600;
    private const long MostIterations = 1_000_000_000;

    /// <exception cref="InvalidFields">The budget, or one of the changes, is not allowed.</exception>
    /// <exception cref="Malformed">The problem is no such JSON.</exception>
    /// <exception cref="RunUnderWay">One is under way on this site.</exception>
    public async Task<PlanRun> HandleAsync(PlanRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        var wanted = Checked(request);
        return await databases.RunAsync(
            async database =>
            {
                var site = await database.SiteOfAsync(actor, cancellation);
                await EventChecks.RefuseAsync(database, wanted, actor, site.Today(time), cancellation);
                var run = await LiveRuns.BeginAsync(database, RunKind.Plan, PlanRun.Steps, actor, time, cancellation);
                run.Result = RunProgress.JsonOf(KeptPlan.For(wanted));
                await database.SaveChangesAsync(cancellation);
                return PlanRun.From(run);
            },
            cancellation);
    }

    private static PlanRequest Checked(PlanRequest request)
    {
        var checks = new FieldChecks();
        if (request is { Seconds: not null, Iterations: not null })
        {
            checks.Fail("iterations", Text(request.Iterations), "either seconds or iterations");
        }

        if (request.Seconds is { } seconds and not (> 0 and <= MostSeconds))
        {
            checks.Fail("seconds", Text(seconds), $"above 0 to {Text(MostSeconds)}");
        }

        if (request.Iterations is < 0 or > MostIterations)
        {
            checks.Fail("iterations", Text(request.Iterations), $"0 to {Text(MostIterations)}");
        }

        if (request.Seed < 0)
        {
            checks.Fail("seed", Text(request.Seed), "0 or more");
        }

        checks.Done();
        try
        {
            // Read here, so that who sent it hears what is wrong with it.
            _ = request.Problem is null ? null : Planning.Checks.ProblemCheck.Of(PlanningJson.ReadProblem(request.Problem));
        }
        catch (ProblemUnreadable unreadable)
        {
            throw new Malformed(unreadable.Message);
        }

        return request is { Seconds: null, Iterations: null } ? request with { Seconds = UsualSeconds } : request;
    }

    private static string Text(IFormattable? value) => value?.ToString(null, CultureInfo.InvariantCulture) ?? "";
}
