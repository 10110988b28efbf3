using Nursery.Planning.Checks;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning;

/// <summary>A plan and what was wrong with its problem.</summary>
/// <param name="Checked">The problem the plan is for: what was wrong is taken out.</param>
public sealed record Planned(Plan Plan, CheckedProblem Checked);

/// <summary>Makes plans: a first one by placing batches one after another, bettered for as long as it may.</summary>
public static class Planner
{
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(200);

    /// <summary>Stopped early it gives the best plan so far.</summary>
    /// <exception cref="ProblemUnreadable">Start or length of the season make no season at all.</exception>
    public static Planned Plan(
        Problem problem, Effort effort, Action<PlanProgress>? progress = null, CancellationToken cancellation = default)
    {
        var @checked = ProblemCheck.Of(problem);
        var model = new SeasonModel(@checked.Usable, @checked.Usable.Batches);
        var random = new SplitMix(effort.Seed);
        var season = Constructive.Best(model, random);
        Better(season, effort, random, SearchHeat.Of(season), progress, cancellation);
        NearBenches.Settle(season);
        return Written(season, @checked);
    }

    /// <summary>Goes on from a plan instead of from nothing; what of it is not possible in this problem is placed anew.</summary>
    /// <exception cref="ProblemUnreadable">Start or length of the season make no season at all.</exception>
    public static Planned Better(
        Problem problem, Plan plan, Effort effort, Action<PlanProgress>? progress = null, CancellationToken cancellation = default)
    {
        var @checked = ProblemCheck.Of(problem);
        var random = new SplitMix(effort.Seed);
        var season = PlanReading.PutBack(@checked.Usable, plan.Batches, random);
        Better(season, effort, random, SearchHeat.Of(season), progress, cancellation);
        NearBenches.Settle(season);
        return Written(season, @checked);
    }

    internal static Planned Written(Season season, CheckedProblem @checked)
    {
        var plan = PlanWriting.Of(season, @checked.SetAside);
        return new Planned(@checked.Remarks.Count == 0 ? plan : plan with { Remarks = [.. @checked.Remarks.Select(remark => remark.Sentence)] }, @checked);
    }

    internal static void Better(
        Season season, Effort effort, SplitMix random, SearchHeat heat, Action<PlanProgress>? progress, CancellationToken cancellation)
    {
        if (effort.Steps is 0 || effort.Time == TimeSpan.Zero)
        {
            return;
        }

        var told = System.Diagnostics.Stopwatch.StartNew();
        new RuinAndRecreate(season, random) { Heat = heat }.Run(
            new Budget(effort.Steps, effort.Time), progress is null ? null : Tell, cancellation);

        void Tell(long best, double done)
        {
            if (done >= 1 || told.Elapsed >= Quiet)
            {
                told.Restart();
                progress(new PlanProgress(best, done));
            }
        }
    }
}
