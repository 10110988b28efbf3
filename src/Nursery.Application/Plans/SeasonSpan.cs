using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>How much of a season there is to draw.</summary>
internal static class SeasonSpan
{
    /// <summary>A time line of less says nothing.</summary>
    private const int LeastDays = 28;

    /// <summary>The season from its start to the week in which the last trays leave, in whole weeks: late batches lengthen the problem, and
    /// what stands already may leave after its end.</summary>
    public static Problem Drawn(Problem problem, params Plan[] plans)
    {
        var last = plans.SelectMany(plan => plan.Batches).Select(batch => batch.ReadyOn)
            .Concat((problem.Frozen ?? []).Select(stay => stay.To))
            .Select(problem.DayOf).DefaultIfEmpty(0).Max();
        return problem with { Days = Math.Clamp((last + 6) / 7 * 7, LeastDays, SeasonProblems.MostDays) };
    }
}
