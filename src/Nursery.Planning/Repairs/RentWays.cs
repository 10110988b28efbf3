using System.Globalization;
using Nursery.Planning.Changes;
using Nursery.Planning.Checks;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Repairs;

/// <summary>Spaces rented: of what is missing alone where that helps, else of two kinds, else of all; no more of them and no longer than
/// the plan with them needs.</summary>
/// <param name="trials">Of the plan that left trays out.</param>
/// <param name="spaceWeek">Cents for a space a week.</param>
internal sealed class RentWays(Trials trials, int spaceWeek)
{
    private const string House = "rented";
    private static readonly Resource[][] Sets =
    [
        [Resource.WarmBenches], [Resource.CoolBenches], [Resource.Heat], [Resource.Hardening],
        [Resource.WarmBenches, Resource.Hardening], [Resource.CoolBenches, Resource.Hardening],
        [Resource.Heat, Resource.WarmBenches], [Resource.Heat, Resource.CoolBenches],
        [Resource.Heat, Resource.WarmBenches, Resource.CoolBenches, Resource.Hardening],
    ];

    private readonly Problem _problem = trials.Problem;

    private sealed record Rent(Resource Resource, int Spaces, OutOfUse Days)
    {
        public int Weeks => (Days.To.DayNumber - Days.From.DayNumber + 6) / 7;
    }

    public IEnumerable<Repair> Of()
    {
        var helped = new List<(Resource[] Set, int Gain)>();
        foreach (var set in Sets.Where(set => set.All(resource => Most(resource) > 0)))
        {
            // More kinds than needed for as many trays are of no use.
            if (helped.Any(smaller => smaller.Set.All(set.Contains) && smaller.Gain == trials.TraysLeft))
            {
                continue;
            }

            Rent[] rents = [.. set.Select(resource => new Rent(resource, Most(resource), Whole))];
            if (trials.Run(Changes(rents)) is not { } planned || helped.Any(smaller => smaller.Set.All(set.Contains) && smaller.Gain >= trials.Gain(planned)))
            {
                continue;
            }

            helped.Add((set, trials.Gain(planned)));
            (rents, planned) = Fewest(rents, planned);
            (rents, planned) = Shortest(rents, planned);
            if (rents.Length > 0)
            {
                yield return trials.Repair(
                    Changes(rents), "Rent " + string.Join(" and ", rents.Select(Words)), planned,
                    rents.Sum(rent => (long)spaceWeek * rent.Weeks * rent.Spaces));
            }
        }
    }

    private OutOfUse Whole => new(_problem.Start, _problem.End);

    /// <summary>Room for all batches without a place at the same time.</summary>
    private int Most(Resource resource) => Math.Min(ProblemCheck.MostSpaces, trials.Left.Sum(batch => resource switch
    {
        Resource.Heat => batch.SpacesBefore,
        Resource.WarmBenches when trials.Crops[batch.Crop].WarmDays is null => 0,
        Resource.CoolBenches when trials.Crops[batch.Crop].CoolDays is null => 0,
        _ => batch.SpacesSpaced(trials.Crops[batch.Crop]),
    }));

    private (Rent[] Rents, Planned Planned) Fewest(Rent[] rents, Planned planned)
    {
        var gain = trials.Gain(planned);
        for (var index = 0; index < rents.Length; index++)
        {
            var (fewest, enough) = (1, rents[index].Spaces);
            while (fewest < enough)
            {
                var middle = (fewest + enough) / 2;
                Rent[] fewer = [.. rents.Select((rent, other) => other == index ? rent with { Spaces = middle } : rent)];
                if (trials.Run(Changes(fewer)) is { } held && trials.Gain(held) >= gain)
                {
                    (enough, rents, planned) = (middle, fewer, held);
                }
                else
                {
                    fewest = middle + 1;
                }
            }
        }

        return (rents, planned);
    }

    /// <summary>Only the days on which the plan has trays there; what it has none on is not rented.</summary>
    private (Rent[] Rents, Planned Planned) Shortest(Rent[] rents, Planned planned)
    {
        Rent[] shorter = [.. rents.Select(rent => (Rent: rent, Days: Used(rent.Resource, planned.Plan))).Where(one => one.Days != null)
            .Select(one => one.Rent with { Days = one.Days! })];
        return trials.Least(Changes(shorter), planned.Plan) is { } held && trials.Gain(held) >= trials.Gain(planned) ? (shorter, held) : (rents, planned);
    }

    private OutOfUse? Used(Resource resource, Plan plan)
    {
        var days = new List<(DateOnly From, DateOnly To)>();
        if (resource == Resource.Hardening)
        {
            var loads = new int[_problem.Days + 1];
            foreach (var stay in (_problem.Frozen ?? []).Where(stay => stay.Where == FrozenWhere.Hardening))
            {
                Add(stay.From, stay.To, stay.Spaces);
            }

            foreach (var placed in plan.Batches)
            {
                Add(placed.HardenOn, placed.ReadyOn, placed.Benches.Sum(stay => stay.SpacesAfter));
            }

            days.AddRange(Enumerable.Range(0, _problem.Days).Where(day => loads[day] > _problem.HardeningSpaces)
                .Select(day => (_problem.DateOf(day), _problem.DateOf(day + 1))));

            void Add(DateOnly from, DateOnly to, int spaces)
            {
                for (var day = Math.Max(0, _problem.DayOf(from)); day < Math.Min(_problem.Days, _problem.DayOf(to)); day++)
                {
                    loads[day] += spaces;
                }
            }
        }
        else
        {
            days.AddRange(plan.Batches.Where(placed => resource == Resource.Heat
                ? placed.Heat.Any(stay => stay.Zone == Id(resource)) : placed.Benches.Any(stay => stay.Bench == Id(resource)))
                .Select(placed => resource == Resource.Heat ? (placed.SowOn, placed.MoveOffOn) : (placed.MoveOffOn, placed.HardenOn)));
        }

        return days.Count == 0 ? null : new OutOfUse(days.Min(span => span.From), days.Max(span => span.To));
    }

    private SeasonChange[] Changes(Rent[] rents) => [.. rents.Select(Change)];

    private SeasonChange Change(Rent rent) => rent.Resource switch
    {
        Resource.Hardening => new HardeningRented(rent.Spaces, rent.Days),
        Resource.Heat => new SpacesRented(new Bench(Id(Resource.Heat), House, BenchUse.Heat, rent.Spaces, 0, 0), rent.Days, Setpoints()),
        var band => new SpacesRented(
            new Bench(Id(band), House, band == Resource.WarmBenches ? BenchUse.Warm : BenchUse.Cool, rent.Spaces, 0, 0), rent.Days),
    };

    /// <summary>Those that suit the batches it is rented for.</summary>
    private double[] Setpoints() =>
    [
        .. trials.Left.Select(batch => trials.Crops[batch.Crop]).SelectMany(crop =>
            crop.Table.Where(row => row.SetpointF >= crop.MinF && row.SetpointF <= crop.MaxF)).Select(row => row.SetpointF).Distinct().Order(),
    ];

    private static string Id(Resource resource) => $"rented {Kind(resource)}";

    private static string Kind(Resource resource) => resource switch
    {
        Resource.Heat => "heated",
        Resource.WarmBenches => "warm",
        Resource.CoolBenches => "cool",
        _ => "hardening",
    };

    private static string Words(Rent rent) => string.Create(
        CultureInfo.InvariantCulture,
        $"{rent.Spaces} {Kind(rent.Resource)} {(rent.Spaces == 1 ? "space" : "spaces")} for {Trials.Count(rent.Weeks, "week", "weeks")} from {Trials.Day(rent.Days.From)}");
}
