using System.Globalization;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Rounds;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Web.Components.Pages.Rounds;

/// <summary>The short facts around a task on the round.</summary>
internal static class TaskWords
{
    /// <summary>"2 days late"; null while it is not.</summary>
    public static string? Late(LocalDate dueOn, LocalDate today)
    {
        var days = Period.DaysBetween(dueOn, today);
        return days < 1 ? null : Many(days, "day", "days") + " late";
    }

    /// <summary>"30–52 of 72 cells up in a tray".</summary>
    public static string Expected(ExpectedShare up, int cellsPerTray)
    {
        var (low, high) = (Math.Floor(up.Low * cellsPerTray), Math.Ceiling(up.High * cellsPerTray));
        return string.Create(CultureInfo.InvariantCulture, $"{low:0}–{high:0} of {cellsPerTray} cells up in a tray");
    }

    /// <summary>Planned minutes of what is open, as the module says it too: "about 40 min left".</summary>
    public static string MinutesLeft(IEnumerable<TaskItem> tasks)
    {
        var left = tasks.Where(task => task.State == TaskState.Open).Sum(task => task.Minutes);
        return left == 0 ? "nothing left" : string.Create(CultureInfo.InvariantCulture, $"about {Math.Max(1, Math.Round(left, MidpointRounding.AwayFromZero))} min left");
    }

    public static string Trays(int trays) => Many(trays, "tray", "trays");

    /// <summary>"spaces 1–18"; null where that is not known.</summary>
    public static string? Spaces(TaskItem task) => (task.FirstSpace, task.LastSpace) switch
    {
        ({ } first, { } last) when first == last => string.Create(CultureInfo.InvariantCulture, $"space {first}"),
        ({ } first, { } last) => string.Create(CultureInfo.InvariantCulture, $"spaces {first}–{last}"),
        _ => null,
    };

    /// <summary>"bench 2A, spaces 1–18": where the trays are.</summary>
    public static string From(TaskItem task) => task.BenchCode is { } bench ? $"bench {bench}{Run(task.FirstSpace, task.LastSpace)}" : "no bench";

    /// <summary>Where they go next.</summary>
    public static string To(TaskItem task) => $"bench {task.NextBench}{Run(task.NextFirstSpace, task.NextLastSpace)}";

    private static string Run(int? first, int? last) => (first, last) switch
    {
        ({ } from, { } to) when from == to => string.Create(CultureInfo.InvariantCulture, $", space {from}"),
        ({ } from, { } to) => string.Create(CultureInfo.InvariantCulture, $", spaces {from}–{to}"),
        _ => "",
    };

    /// <summary>"80 °F heat", "59–70 °F heat", or "no heat".</summary>
    public static string Heat(IReadOnlyList<decimal> setpointsC, Units units)
    {
        var shown = setpointsC.Select(setpoint => Degrees(setpoint, units)).Distinct().ToList();
        var unit = units == Units.UsCustomary ? "°F" : "°C";
        return shown.Count == 0 ? "no heat" : $"{string.Join("–", new[] { shown[0], shown[^1] }.Distinct())} {unit} heat";
    }

    public static string Many(int count, string one, string many) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    private static string Degrees(decimal celsius, Units units) => units == Units.UsCustomary
        ? new Temperature(celsius).Fahrenheit.ToString("0", CultureInfo.InvariantCulture)
        : celsius.ToString("0.#", CultureInfo.InvariantCulture);
}
