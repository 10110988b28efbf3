using System.Globalization;
using Nursery.Planning.Changes;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;

namespace Nursery.Planning.Repairs;

/// <summary>Plans a season again with changes, starting from the plan that left trays out. So many times and no more.</summary>
internal sealed class Trials
{
    private static readonly Effort PutBackOnly = new(Steps: 0);
    private readonly Effort _effort;
    private readonly CancellationToken _cancellation;
    private int _left;

    /// <param name="plan">Of the problem, with trays without a place.</param>
    public Trials(Problem problem, Plan plan, Effort effort, CancellationToken cancellation)
    {
        (Problem, Plan, _effort, _cancellation) = (problem, plan, effort, cancellation);
        _left = Math.Clamp(60_000 / Math.Max(1, problem.Batches.Count), 15, 120);
        Crops = problem.Crops.ToDictionary(crop => crop.Id);
        var batches = problem.Batches.ToDictionary(batch => batch.Id);
        Left = [.. plan.Unplaced.Where(unplaced => batches.ContainsKey(unplaced.Id)).Select(unplaced => batches[unplaced.Id])];
    }

    public Problem Problem { get; }

    public Plan Plan { get; }

    public IReadOnlyDictionary<string, Crop> Crops { get; }

    /// <summary>Batches without a place that could be planned.</summary>
    public IReadOnlyList<Batch> Left { get; }

    public int TraysLeft => Left.Sum(batch => batch.Trays);

    public Prices Prices => Problem.Prices ?? Prices.Usual;

    /// <summary>Trays that get a place by it.</summary>
    public int Gain(Planned planned) => Out(Plan) - Out(planned.Plan);

    /// <summary>The plan with changes: nothing but the batches without a place when those find one so, else a search.</summary>
    /// <returns>Null when it places no more trays, or nothing more may be tried.</returns>
    public Planned? Run(IReadOnlyList<SeasonChange> changes)
    {
        if (Least(changes, Plan) is { } put && Out(put.Plan) == 0)
        {
            return put;
        }

        if (_left <= 0 || _cancellation.IsCancellationRequested)
        {
            return null;
        }

        var planned = Planner.Better(Applied(changes), Plan, _effort, null, _cancellation);
        return Gain(planned) > 0 ? planned : null;
    }

    /// <summary>A plan carried over to other changes, mostly fewer: everything where it was if it can stand there.</summary>
    /// <returns>Null when it places no more trays than today's, or nothing more may be tried.</returns>
    public Planned? Least(IReadOnlyList<SeasonChange> changes, Plan plan)
    {
        if (_left <= 0 || _cancellation.IsCancellationRequested)
        {
            return null;
        }

        _left--;
        var planned = Planner.Better(Applied(changes), plan, PutBackOnly, null, _cancellation);
        return Gain(planned) > 0 ? planned : null;
    }

    /// <param name="words">What it takes, a sentence without its end.</param>
    /// <param name="extra">Cents besides the plan: rent, and trays given up.</param>
    /// <param name="dropped">Trays given up by it.</param>
    public Repair Repair(IReadOnlyList<SeasonChange> changes, string words, Planned planned, long extra = 0, int dropped = 0)
    {
        var (gain, price) = (Gain(planned), Paid(planned.Plan) - Paid(Plan) + extra);
        var placed = gain - dropped;
        var gives = placed == 0 ? "the others stay where they are"
            : placed == TraysLeft ? Count(placed, "tray gets its place", "trays get their place", placed > 1 ? "all " : "the ")
            : string.Create(CultureInfo.InvariantCulture, $"{placed} of the {TraysLeft} trays without a place {(placed == 1 ? "gets" : "get")} one");
        var costs = price == 0 ? "it costs the same"
            : string.Create(CultureInfo.InvariantCulture, $"it costs {Math.Abs(price) / 100m:N2} {(price > 0 ? "more" : "less")}{(extra > 0 && dropped == 0 ? ", rent included" : "")}");
        return new Repair(changes, $"{words}: {gives}, and {costs}.", price, gain, planned);
    }

    public static string Count(int count, string one, string many, string before = "") =>
        string.Create(CultureInfo.InvariantCulture, $"{before}{count} {(count == 1 ? one : many)}");

    /// <summary>As the season has it: "26 Jan".</summary>
    public static string Day(DateOnly day) => day.ToString("d MMM", CultureInfo.InvariantCulture);

    private Problem Applied(IReadOnlyList<SeasonChange> changes) => changes.Aggregate(Problem, (so, change) => change.Applied(so));

    private static int Out(Plan plan) => plan.Unplaced.Sum(unplaced => unplaced.Trays);

    private static long Paid(Plan plan) => plan.Score.PositionedCost - plan.Score.ByConstraint[nameof(Constraint.Unplaced)];
}
