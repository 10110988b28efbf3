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

    public static string Aim(PlanAim aim) => aim switch
    {
        PlanAim.Whole => "Plan anew",
        PlanAim.Keep => "Something happened",
        PlanAim.Try => "Try something out",
        _ => throw new ArgumentOutOfRangeException(nameof(aim), aim, "an aim without words"),
    };

    public static string About(PlanAim aim) => aim switch
    {
        PlanAim.Whole => "Every batch that is not sown yet gets its sowing day, heat and bench anew. What is sown stays where it is.",
        PlanAim.Keep => "Today's plan is kept as far as it can be: a batch changes its day or place only when what happened leaves no other way, and trays that are sown are carried only when their place is lost. Were only orders or batches changed since? Then nothing need be named.",
        PlanAim.Try => "On a copy of the season: collect what you would like to know, and compare it with today's plan. Nothing of it can be put in force, and nothing changes.",
        _ => throw new ArgumentOutOfRangeException(nameof(aim), aim, "an aim without words"),
    };

    /// <summary>What was computed, as it is spoken of.</summary>
    public static string Name(PlanRun run) => run.Proposal switch
    {
        ProposalState.TriedOut => "what is tried out",
        ProposalState.Accepted => "the accepted proposal",
        ProposalState.Dropped => "the dropped proposal",
        _ => "the proposal",
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
        yield return comparison.ThenCost > comparison.TodayCost ? "It costs more than today's plan." : "";
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
        [.. comparison.Costs.Where(cost => cost.Then + cost.Today > 0 && cost.Name is not ("ChangedSowDay" or "ExtraMove" or "OtherHouse"))
            .Select(cost => new HowInput(Cost(cost.Name), Money(cost.Then), "", $"price list of the planner; today's plan {Money(cost.Today)}"))],
        "price list: from memory, to compare plans and not to keep books; in today's plan a zone counts as off while nothing lies on it", "docs/planning.md");

    /// <summary>How the days of a batch come to be.</summary>
    public static How HowTiming(BatchTiming timing, Units units) => new(
        $"Days of {timing.Code}", "off heat on the first day the sum of the daily progress reaches 1; ready after its days on the bench and of hardening off",
        [
            new("sown", Day(timing.SowOn), "", "chosen by the plan"),
            timing.ProgressPerDay is { } progress
                ? HowInput.Of($"progress a day at {Degrees(timing.SetpointF, units)}", progress, "0.000", "", $"emergence model of {timing.Crop}, mix 2 °F below the setpoint")
                : new($"progress a day at {Degrees(timing.SetpointF, units)}", "not known", "", $"{timing.Crop} does not come up well at that setpoint"),
            new("days on heat", Number(timing.MoveOffOn, timing.SowOn), "days", "first day the sum reaches 1"),
            new("off heat", Day(timing.MoveOffOn), "", "sowing and days on heat"),
            new("days on the bench", Number(timing.HardenOn, timing.MoveOffOn), "days", $"weeks of {timing.Crop} without heat and hardening off"),
            new("days of hardening off", Number(timing.ReadyOn, timing.HardenOn), "days", "shortest of the crops in the plan, spent by all"),
            new("trays gone by", Day(timing.ReadyOn), "", "the days above, one after another"),
            new("wanted gone by", Day(timing.Due), "", "order's day less the site's margin, or the batch's own day"),
            new("on time until", Day(timing.LastOnTime), "", "order's day"),
        ],
        "emergence model: docs/agronomy; weeks of the crop: its profile; search: the planner", "docs/planning.md");

    /// <summary>How the highest load comes to be.</summary>
    public static How HowLoad(PlaceLoad load, string plan) => new(
        $"{Kind(load.Kind)}, spaces taken on {Day(load.Fullest)}", "sum of the spaces of all trays that lie there that day; the fullest day of the season",
        [
            .. load.Places.Where(place => place.Standing + place.Planned > 0).Select(place => new HowInput(
                place.Where ?? "hardening off, one pool", $"{Written.Number(place.Standing + place.Planned)} of {Written.Number(place.Spaces)}", "spaces",
                $"{Written.Number(place.Standing)} reserved for trays that stay, {Written.Number(place.Planned)} for batches not sown yet")),
        ],
        $"counted from {plan} and the reservations in force", "docs/planning.md");

    private static string Number(DateOnly to, DateOnly from) => Written.Number(to.DayNumber - from.DayNumber);

    private static string Zones(BatchPlace placed) => string.Join(" and ", placed.Zones);

    private static string Benches(BatchPlace placed) => string.Join(" and ", placed.Benches);

    private static string Said(int count, string one, string many) =>
        count == 0 ? "" : string.Format(CultureInfo.InvariantCulture, count == 1 ? one : many, Written.Count(count, "batch", "batches")) + ".";
}
