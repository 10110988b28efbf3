using System.Globalization;
using Nursery.Planning.Changes;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;

namespace Nursery.Planning.Repairs;

/// <summary>Looks for the cheapest ways to place what a plan leaves out. Nothing is promised that was not planned.</summary>
public static class Repairing
{
    private const int Later = 7;
    private const int Earlier = 7;

    /// <param name="problem">As <see cref="Checks.ProblemCheck"/> leaves it.</param>
    /// <param name="plan">Its plan, with trays without a place.</param>
    /// <param name="rentSpaceWeek">Cents for a rented tray space a week.</param>
    /// <param name="effort">For each way out.</param>
    public static WayOut Of(Problem problem, Plan plan, int rentSpaceWeek, Effort effort, CancellationToken cancellation = default)
    {
        var proofs = ShortageProof.Of(problem);
        var batches = problem.Batches.ToDictionary(batch => batch.Id);
        var left = plan.Unplaced.Where(unplaced => batches.ContainsKey(unplaced.Id)).Select(unplaced => batches[unplaced.Id]).ToList();
        if (left.Count == 0)
        {
            return new WayOut(proofs, []);
        }

        var repairs = new List<Repair>();
        foreach (var (changes, words, rent) in Ways(problem, left, proofs, rentSpaceWeek))
        {
            if (cancellation.IsCancellationRequested)
            {
                break;
            }

            var planned = Planner.Better(changes.Aggregate(problem, (so, change) => change.Applied(so)), plan, effort, null, cancellation);
            var more = Out(plan) - Out(planned.Plan);
            var dropped = changes.OfType<BatchCancelled>().Sum(change => batches[change.Batch].Trays);
            if (more > 0)
            {
                var price = Paid(planned.Plan) - Paid(plan) + rent;
                repairs.Add(new Repair(
                    changes,
                    string.Create(CultureInfo.InvariantCulture, $"{words}: {(dropped > 0 ? $"{dropped} trays are given up" : $"{more} more trays get a place")}, and the plan costs {price / 100m:0.00} more."),
                    price, more, planned));
            }
        }

        return new WayOut(proofs, [.. repairs.OrderBy(repair => (double)repair.Price / repair.TraysMore)]);
    }

    private static int Out(Plan plan) => plan.Unplaced.Sum(unplaced => unplaced.Trays);

    private static long Paid(Plan plan) => plan.Score.PositionedCost - plan.Score.ByConstraint[nameof(Constraint.Unplaced)];

    private static IEnumerable<(IReadOnlyList<SeasonChange> Changes, string Words, long Rent)> Ways(
        Problem problem, List<Batch> left, IReadOnlyList<Shortage> proofs, int rentSpaceWeek)
    {
        yield return ([.. left.Select(batch => new HandOverLate(batch.Id, Later))], $"Hand over {Name(left)} up to {Later} days later than now allowed", 0);
        yield return ([.. left.Select(batch => new SowEarlier(batch.Id, Earlier))], $"Have {Name(left)} ready up to {Earlier} days sooner", 0);
        var all = problem.Zones.SelectMany(zone => zone.SetpointsF).Distinct().Order().ToList();
        foreach (var zone in problem.Zones.Where(zone => zone.SetpointsF.Count < all.Count).Take(4))
        {
            yield return ([new ZoneSetpoints(zone.Id, all)], $"Let zone {zone.Id} be set to what the others may have", 0);
        }

        foreach (var use in new[] { BenchUse.Warm, BenchUse.Cool })
        {
            if (Rented(problem, left, proofs, use) is { } rented)
            {
                var weeks = (rented.Days.To.DayNumber - rented.Days.From.DayNumber + 6) / 7;
                var spaces = rented.Bench.Spaces;
                yield return (
                    [rented, new HardeningChanged(spaces)],
                    string.Create(CultureInfo.InvariantCulture, $"Rent {spaces} {(use == BenchUse.Warm ? "warm" : "cool")} spaces from {rented.Days.From:yyyy-MM-dd} to {rented.Days.To:yyyy-MM-dd}, and harden as many more"),
                    (long)rentSpaceWeek * weeks * spaces);
            }
        }

        yield return ([.. left.Select(batch => new BatchCancelled(batch.Id))], $"Give up {Name(left)}", left.Sum(batch => (long)batch.Trays) * (problem.Prices ?? Prices.Usual).UnplacedTray);
    }

    private static SpacesRented? Rented(Problem problem, List<Batch> left, IReadOnlyList<Shortage> proofs, BenchUse use)
    {
        var crops = problem.Crops.ToDictionary(crop => crop.Id);
        var mine = left.Where(batch => (use == BenchUse.Warm ? crops[batch.Crop].WarmDays : crops[batch.Crop].CoolDays) != null).ToList();
        if (mine.Count == 0)
        {
            return null;
        }

        // As long as any of them may stand, and room for the ones that stand at the same time: all of them, at most twice what is proved.
        var from = mine.Min(batch => batch.FirstReady.AddDays(-problem.HardeningDays - (crops[batch.Crop].WarmDays ?? 0) - (crops[batch.Crop].CoolDays ?? 0)));
        var to = mine.Max(batch => batch.LastReady);
        from = from < problem.Start ? problem.Start : from;
        to = to > problem.End ? problem.End : to;
        var needed = mine.Sum(batch => batch.SpacesSpaced(crops[batch.Crop]));
        var proof = proofs.FirstOrDefault(shortage => shortage.Resource == (use == BenchUse.Warm ? Resource.WarmBenches : Resource.CoolBenches));
        var spaces = Math.Clamp(needed, mine.Max(batch => batch.SpacesSpaced(crops[batch.Crop])), Checks.ProblemCheck.MostSpaces);
        spaces = proof is null ? spaces : Math.Min(spaces, Math.Max(2 * (proof.SpacesNeeded - proof.SpacesThere), mine.Max(batch => batch.SpacesSpaced(crops[batch.Crop]))));
        return from < to
            ? new SpacesRented(new Bench($"rented {(use == BenchUse.Warm ? "warm" : "cool")}", "rented", use, spaces, 0, 0), new OutOfUse(from, to))
            : null;
    }

    private static string Name(List<Batch> batches) => batches.Count <= 4
        ? string.Join(", ", batches.Select(batch => batch.Id))
        : string.Create(CultureInfo.InvariantCulture, $"{batches.Count} batches");
}
