using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Repairs;

/// <summary>Looks for the cheapest ways to place what a plan leaves out. Nothing is promised that was not planned.</summary>
public static class Repairing
{
    /// <param name="problem">As <see cref="Checks.ProblemCheck"/> leaves it.</param>
    /// <param name="plan">Its plan, with trays without a place.</param>
    /// <param name="rentSpaceWeek">Cents for a rented space a week.</param>
    /// <param name="effort">For each way out.</param>
    public static WayOut Of(Problem problem, Plan plan, int rentSpaceWeek, Effort effort, CancellationToken cancellation = default)
    {
        var proofs = ShortageProof.Of(problem);
        var trials = new Trials(problem, plan, effort, cancellation);
        if (trials.Left.Count == 0)
        {
            return new WayOut(proofs, []);
        }

        // What a longer search alone places is no merit of a way out.
        var repairs = new List<Repair>();
        if (trials.Run([]) is { } longer)
        {
            repairs.Add(trials.Repair([], "Search longer", longer));
            trials = new Trials(problem, longer.Plan, effort, cancellation);
        }

        if (trials.Left.Count > 0)
        {
            repairs.AddRange(WindowWays.Of(trials));
            repairs.AddRange(ZoneWays.Of(trials));
            if (DropWays.Of(trials) is { } drop)
            {
                repairs.Add(drop);
            }

            repairs.AddRange(new RentWays(trials, rentSpaceWeek).Of());
        }

        return new WayOut(proofs, [.. repairs.OrderBy(repair => (double)repair.Price / repair.TraysMore)]);
    }
}
