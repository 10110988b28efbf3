using System.Globalization;
using Nursery.Agronomy;
using Nursery.Application;
using Nursery.Application.Computed;
using Nursery.Application.Plans;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Plans;

/// <summary>A proposal in sentences.</summary>
internal static class PlanWords
{
    public static string Day(DateOnly day) => day.ToString("d MMM", CultureInfo.InvariantCulture);

    public static string Money(long cents) => (cents / 100m).ToString("N2", CultureInfo.InvariantCulture);

    public static string Degrees(double fahrenheit, Units units) =>
        Application.Degrees.Of(Temperature.FromFahrenheit((decimal)fahrenheit).Celsius, units);

    public static string Kind(PlaceKind kind) => kind switch
    {
        PlaceKind.Heat => "Heat zones",
        PlaceKind.Warm => "Warm benches",
        PlaceKind.Cool => "Cool benches",
        _ => "Hardening off",
    };

    /// <summary>What a cost is for.</summary>
    public static string Cost(string constraint) => constraint switch
    {
        "EarlyReady" => "ready before it is due",
        "LateReady" => "ready after it is due",
        "DegreeOff" => "heat off what the crop likes best",
        "HeatedBenchDay" => "heat of zones that are on",
        "SetpointChange" => "zones set to something else",
        "SplitBatch" => "batches on more than one zone or bench",
        "Unplaced" => "trays without a place",
        "SplitRun" => "batches in more than one run of spaces",
        "ChangedSowDay" => "sowing days changed",
        "ExtraMove" => "zones and benches changed",
        "OtherHouse" => "trays carried to another house",
        _ => constraint,
    };

    /// <summary>The proposal against today's plan, a sentence each.</summary>
    public static IEnumerable<string> Summary(PlanComparison comparison)
    {
        var batches = comparison.Batches;
        yield return Said(batches.Count(batch => batch.Gains), "{0} that had no place gets one", "{0} that had no place get one");
        yield return Said(batches.Count(batch => batch.Loses), "{0} loses its place", "{0} lose their place");
        yield return Said(batches.Count(batch => batch.BecomesSafe && batch.Today is not null), "{0} that would be late is on time", "{0} that would be late are on time");
        yield return Said(batches.Count(batch => batch.BecomesLate), "{0} becomes late", "{0} become late");
        yield return Said(batches.Count(batch => batch.LateThen > 0), "{0} is late all the same", "{0} are late in it");
        yield return Said(batches.Count(batch => batch.SowDay), "{0} is sown on another day", "{0} are sown on another day");
        yield return Said(batches.Count(batch => batch.Zone), "{0} starts in another heat zone", "{0} start in another heat zone");
        yield return Said(batches.Count(batch => batch.Bench), "{0} stands on another bench", "{0} stand on another bench");
        yield return comparison.Zones.Count == 0
            ? "No heat zone is set to something else under trays."
            : $"{Written.Count(comparison.Zones.Select(zone => zone.Zone).Distinct().Count(), "heat zone")} set to something else: {Written.Count(comparison.Zones.Count, "change")}.";
    }

    /// <summary>What happens to one batch.</summary>
    public static string Change(BatchChange batch, Units units)
    {
        if (batch.Then is not { } now)
        {
            return batch.Today is null ? "still has no place" : "loses its place";
        }

        if (batch.Today is not { } was)
        {
            return $"gets a place: sown {Day(now.SowOn)}, zone {Zones(now)} at {Degrees(now.SetpointF, units)}, then bench {Benches(now)} from {Day(now.MoveOffOn)}";
        }

        var changes = new List<string>();
        Add(batch.SowDay, $"sown {Day(now.SowOn)}, not {Day(was.SowOn)}");
        Add(batch.Zone, $"zone {Zones(now)} at {Degrees(now.SetpointF, units)}, not {Zones(was)}");
        Add(!batch.Zone && !was.SetpointF.Equals(now.SetpointF), $"{Degrees(now.SetpointF, units)} instead of {Degrees(was.SetpointF, units)}");
        Add(batch.Bench, $"bench {Benches(now)}, not {Benches(was)}");
        Add(was.ReadyOn != now.ReadyOn, $"ready {Day(now.ReadyOn)}, not {Day(was.ReadyOn)}");
        return changes.Count == 0 ? "as it is" : string.Join("; ", changes);

        void Add(bool differs, string words)
        {
            if (differs)
            {
                changes.Add(words);
            }
        }
    }

    /// <summary>Whether the order can count on it.</summary>
    public static string Order(BatchChange batch) => batch switch
    {
        { Then: null } => "no place",
        { LateThen: > 0 and var late } => $"{Written.Count(late, "day")} late{(batch.LateToday == 0 ? ", was on time" : "")}",
        { LateToday: > 0 and var late } => $"on time, was {Written.Count(late, "day")} late",
        _ => "on time",
    };

    /// <summary>How the cost of a plan comes to be.</summary>
    public static How HowCost(PlanComparison comparison) => new(
        "What the proposal costs", "sum of what each breach of a wish costs, by the price list of docs/planning.md",
        [.. comparison.Costs.Where(cost => cost.Then > 0 && cost.Name is not ("ChangedSowDay" or "ExtraMove" or "OtherHouse"))
            .Select(cost => new HowInput(Cost(cost.Name), Money(cost.Then), "", "the proposal, price list of the planner"))],
        "price list: from memory, to compare plans and not to keep books", "docs/planning.md");

    private static string Zones(BatchPlace placed) => string.Join(" and ", placed.Zones);

    private static string Benches(BatchPlace placed) => string.Join(" and ", placed.Benches);

    private static string Said(int count, string one, string many) =>
        count == 0 ? "" : string.Format(CultureInfo.InvariantCulture, count == 1 ? one : many, Written.Count(count, "batch", "batches")) + ".";
}
