using System.Globalization;
using Nursery.Application.Computed;

namespace Nursery.Application.Plans;

/// <summary>How good a plan is at least, in a grower's words.</summary>
public static class BoundWords
{
    /// <param name="cost">Of the plan, cents.</param>
    /// <param name="bound">Cents no plan can cost less than, above 0 and not above the cost.</param>
    public static string Of(long cost, long bound) => string.Create(
        CultureInfo.InvariantCulture,
        $"No plan of this season can cost less than {bound / 100m:N2}; this one costs {cost / 100m:N2}, {Above(cost, bound)}.");

    public static How How(long cost, long bound) => new(
        "What no plan of this season can cost less than",
        "least cost when trays, not whole batches, are placed, the benches of a band count as one, and so do heat zones of a size; every plan is one way to do that, so none can be cheaper",
        [
            new HowInput("least cost so", Money(bound), "", "an exact solver, run beside the search"),
            new HowInput("this plan", Money(cost), "", "the proposal, price list of the planner"),
            new HowInput("above it at most", Percent(cost, bound), "%", "this plan ÷ least cost − 1, rounded up"),
        ],
        "linear and integer programming; price list from memory", "docs/planning.md");

    private static string Above(long cost, long bound) =>
        cost == bound ? "so none is cheaper" : $"at most {Percent(cost, bound)} % more";

    private static string Money(long cents) => (cents / 100m).ToString("N2", CultureInfo.InvariantCulture);

    private static string Percent(long cost, long bound) =>
        Math.Ceiling(100m * (cost - bound) / bound).ToString("N0", CultureInfo.InvariantCulture);
}
