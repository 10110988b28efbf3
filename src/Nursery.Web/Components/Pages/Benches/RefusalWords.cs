using System.Globalization;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Why something does not go, in the site's units and without the names of fields.</summary>
public static class RefusalWords
{
    public static string Of(Refusal refusal, Units units) => refusal switch
    {
        TooCold cold => $"Too cold: zone {cold.ZoneCode} is set to {MapText.Degrees(cold.SetpointC, units)}, {cold.CropName} germinates at {SiteDegrees.Range(cold.CropMinC, cold.CropMaxC, units)}.",
        TooHot hot => $"Too hot: zone {hot.ZoneCode} is set to {MapText.Degrees(hot.SetpointC, units)}, {hot.CropName} germinates at {SiteDegrees.Range(hot.CropMinC, hot.CropMaxC, units)}.",
        WouldHarm harm => $"Zone {harm.ZoneCode} cannot be set to {MapText.Degrees(harm.SetpointC, units)}: {Harmed(harm.Harmed, units)}.",
        SpaceTaken => $"Taken. {refusal.Message}.",
        NotInUse => $"Out of use. {refusal.Message}.",
        BenchIsFull => $"Full. {refusal.Message}.",
        InvalidFields { Errors: [var error, ..] } => $"Not possible: {Field(error.Field)} {error.Value}; allowed is {error.Allowed}.",
        _ => $"{refusal.Message}.",
    };

    private static string Harmed(IReadOnlyList<HarmedTrays> harmed, Units units)
    {
        const int Named = 5;
        var words = string.Join("; ", harmed.Take(Named).Select(
            trays => $"{trays.TraySetCode} {trays.CropName} needs {SiteDegrees.Range(trays.MinC, trays.MaxC, units)}"));
        return harmed.Count > Named
            ? string.Create(CultureInfo.InvariantCulture, $"{words}; and {harmed.Count - Named} more")
            : words;
    }

    private static string Field(string field) => field switch
    {
        "firstSpace" => "first space",
        "on" => "from day",
        "setpointC" => "setpoint °C",
        "benchCode" => "bench",
        _ => field,
    };
}
