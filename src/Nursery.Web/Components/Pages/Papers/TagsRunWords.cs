using System.Globalization;
using NodaTime;
using Nursery.Application.Papers;
using Nursery.Domain.Runs;

namespace Nursery.Web.Components.Pages.Papers;

/// <summary>A print in the background, as the page says it.</summary>
internal static class TagsRunWords
{
    public static string About(TrayTagsRequest request)
    {
        var parts = new[]
        {
            request.Code,
            request.House is { } house ? "house " + house : null,
            request.SowOn is { } day ? "sown " + Written.Day(day) : null,
        }.OfType<string>().ToList();
        return "Tags of " + (parts.Count == 0 ? "all trays" : string.Join(", ", parts));
    }

    public static string Ended(TagsRun run) => run.State switch
    {
        RunState.Done => "It is no longer kept: print it again.",
        RunState.Stopped => string.Create(CultureInfo.InvariantCulture, $"Stopped after {run.Done:N0} of {run.Total:N0} tags; nothing is kept."),
        RunState.Failed => $"It failed: {run.Message}.",
        RunState.Interrupted => "The server ended before it was ready: print it again.",
        _ => throw new ArgumentOutOfRangeException(nameof(run), run.State, "a run that is not over"),
    };

    public static string Address(TagsRun run) => $"/api/v1/papers/tray-tags/runs/{run.Id}/tags.pdf";

    /// <summary>"0.4 MB".</summary>
    public static string Size(int bytes) => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB");

    /// <summary>"3 March, 14:05" on the site's clock.</summary>
    public static string Clock(Instant at, string zone) =>
        at.InZone(DateTimeZoneProviders.Tzdb[zone]).ToString("d MMMM, HH:mm", CultureInfo.InvariantCulture);
}
