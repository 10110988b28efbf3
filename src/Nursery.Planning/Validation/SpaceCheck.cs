using System.Globalization;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;

namespace Nursery.Planning.Validation;

/// <summary>Marks every space on every day, one zone or bench after the other, and counts hardening.</summary>
internal sealed class SpaceCheck(Problem problem)
{
    private readonly Dictionary<string, List<Hold>> _holds = [];

    /// <param name="Batch">Null: frozen trays or out of use.</param>
    private sealed record Hold(string? Batch, int From, int To, int First, int Count);

    public IEnumerable<Violation> Check(IReadOnlyList<PlannedBatch> plan)
    {
        Frozen();
        foreach (var placed in plan)
        {
            foreach (var stay in placed.Heat)
            {
                Add(stay.Zone, new Hold(placed.Id, Day(placed.SowOn), Day(placed.MoveOffOn), stay.FirstSpace, stay.Spaces));
            }

            foreach (var stay in placed.Benches)
            {
                Add(stay.Bench, new Hold(placed.Id, Day(placed.MoveOffOn), Day(placed.SpaceOn), stay.FirstSpace, stay.Spaces));
                Add(stay.Bench, new Hold(placed.Id, Day(placed.SpaceOn), Day(placed.HardenOn), stay.FirstSpaceAfter, stay.SpacesAfter));
            }
        }

        var spaces = problem.Zones.ToDictionary(zone => zone.Id, zone => zone.Spaces);
        foreach (var bench in problem.Benches.Where(bench => bench.Use != BenchUse.Heat))
        {
            spaces[bench.Id] = bench.Spaces;
        }

        var violations = _holds.Where(pair => pair.Key != FrozenWhere.Hardening)
            .SelectMany(pair => Marked(pair.Key, spaces.GetValueOrDefault(pair.Key), pair.Value)).ToList();
        violations.AddRange(Hardening(plan));
        return violations;
    }

    private void Frozen()
    {
        foreach (var stay in problem.Frozen ?? [])
        {
            Add(stay.Where, new Hold(null, Day(stay.From), Day(stay.To), stay.FirstSpace, stay.Spaces));
        }

        foreach (var bench in problem.Benches)
        {
            foreach (var span in bench.OutOfUse ?? [])
            {
                // A heated bench has no spaces but those of its zones.
                if (bench.Use != BenchUse.Heat)
                {
                    Add(bench.Id, new Hold(null, Day(span.From), Day(span.To), 1, bench.Spaces));
                }

                foreach (var zone in problem.Zones.Where(zone => zone.Bench == bench.Id))
                {
                    Add(zone.Id, new Hold(null, Day(span.From), Day(span.To), 1, zone.Spaces));
                }
            }
        }

        foreach (var zone in problem.Zones)
        {
            foreach (var span in zone.OutOfUse ?? [])
            {
                Add(zone.Id, new Hold(null, Day(span.From), Day(span.To), 1, zone.Spaces));
            }
        }
    }

    private IEnumerable<Violation> Marked(string area, int spaces, List<Hold> holds)
    {
        var marked = new bool[problem.Days * Math.Max(1, spaces)];
        foreach (var hold in holds.OrderBy(hold => hold.Batch != null))
        {
            if (hold.First < 1 || hold.First + hold.Count - 1 > spaces)
            {
                yield return new Violation(
                    Constraint.OverCapacity, hold.Batch ?? area, Invariant($"Spaces {hold.First} to {hold.First + hold.Count - 1} are not all on {area}, which has {spaces}."));
                continue;
            }

            var clash = false;
            for (var day = Math.Max(0, hold.From); day < Math.Min(problem.Days, hold.To); day++)
            {
                foreach (ref var space in marked.AsSpan((day * spaces) + hold.First - 1, hold.Count))
                {
                    clash |= space;
                    space = true;
                }
            }

            if (clash && hold.Batch != null)
            {
                yield return new Violation(
                    Constraint.OverCapacity, hold.Batch, Invariant($"On {area}, spaces {hold.First} to {hold.First + hold.Count - 1} are taken on a day from {problem.DateOf(hold.From):yyyy-MM-dd} to {problem.DateOf(hold.To):yyyy-MM-dd}."));
            }
        }
    }

    private IEnumerable<Violation> Hardening(IReadOnlyList<PlannedBatch> plan)
    {
        var frozen = new long[problem.Days];
        var planned = new long[problem.Days];
        foreach (var hold in _holds.GetValueOrDefault(FrozenWhere.Hardening) ?? [])
        {
            Count(frozen, hold.From, hold.To, hold.Count);
        }

        foreach (var placed in plan)
        {
            Count(planned, Day(placed.HardenOn), Day(placed.ReadyOn), placed.Benches.Sum(stay => stay.SpacesAfter));
        }

        for (var day = 0; day < problem.Days; day++)
        {
            // Frozen trays may fill hardening by themselves; then the plan may add none.
            if (planned[day] > 0 && frozen[day] + planned[day] > problem.HardeningSpaces)
            {
                yield return new Violation(
                    Constraint.OverCapacity, FrozenWhere.Hardening, Invariant($"{frozen[day] + planned[day]} trays on {problem.DateOf(day):yyyy-MM-dd}; there are {problem.HardeningSpaces} spaces."));
            }
        }

        static void Count(long[] days, int from, int to, int count)
        {
            for (var day = Math.Max(0, from); day < Math.Min(days.Length, to); day++)
            {
                days[day] += count;
            }
        }
    }

    private void Add(string area, Hold hold)
    {
        if (!_holds.TryGetValue(area, out var holds))
        {
            _holds[area] = holds = [];
        }

        holds.Add(hold);
    }

    private int Day(DateOnly date) => problem.DayOf(date);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
