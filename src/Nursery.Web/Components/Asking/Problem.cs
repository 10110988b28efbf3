using Nursery.Application;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Asking;

/// <summary>Why something did not happen, in a sentence, with the fields or lines at fault.</summary>
public sealed record Problem(string Sentence, IReadOnlyList<FieldError> Errors)
{
    public static Problem Unexpected { get; } = new(
        "Something went wrong on the server, and it is written down there. What you asked for may not be stored: look before you ask again.", []);

    /// <summary>Of what a page asks by itself.</summary>
    public static Problem Unanswered { get; } = new(
        "The server could not be asked just now, so what is shown may be old. It is asked again by itself.", []);

    public static Problem Of(Refusal refusal, Units units) => new(Sentences(refusal, units) + ".", refusal.Errors);

    /// <summary>Temperatures in the unit of the site; every other refusal already says all in its own words.</summary>
    private static string Sentences(Refusal refusal, Units units) => refusal switch
    {
        TooCold cold => Zone(cold.ZoneCode, cold.SetpointC, "cold", cold.CropName, cold.CropMinC, cold.CropMaxC, units),
        TooHot hot => Zone(hot.ZoneCode, hot.SetpointC, "hot", hot.CropName, hot.CropMinC, hot.CropMaxC, units),
        BandsDoNotMeet bands =>
            $"{bands.Warmer} germinates from {Degrees.Of(bands.LeastC, units)}, {bands.Cooler} only up to {Degrees.Of(bands.MostC, units)}: no setpoint suits both",
        InvalidFields { Errors: [var error] } => $"{FieldWords.Of(error.Field)} is ‘{error.Value}’; allowed: {error.Allowed}",
        InvalidFields => "Some values are not allowed",
        _ => refusal.Message,
    };

    private static string Zone(string zone, decimal setpoint, string wrong, string crop, decimal low, decimal high, Units units) =>
        $"Zone {zone} is set to {Degrees.Of(setpoint, units)}, too {wrong} for {crop}: it germinates from {Degrees.Of(low, units)} to {Degrees.Of(high, units)}";
}
