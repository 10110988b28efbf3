using System.Globalization;
using Nursery.Agronomy.Heat;
using Nursery.Application.Computed;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatAndLight;

/// <summary>What the heating of a zone takes today, if all its spaces are heated.</summary>
/// <param name="Kwh">In a day.</param>
/// <param name="Duty">Part of the time it runs, 0–1; 1: it is too weak for this setpoint.</param>
/// <param name="Cost">In hundredths of the currency; null without a price.</param>
/// <param name="How">Formula, inputs, source.</param>
public sealed record MatToday(double Kwh, double Duty, decimal? Cost, How How)
{
    /// <summary>12.5 W/ft², the middle of what mats are rated (from memory).</summary>
    private const decimal UsualWattsM2 = 135;

    /// <summary>A space of a standard tray, 27.7 × 54.4 cm.</summary>
    private const double SpaceM2 = 0.277 * 0.544;

    internal static MatToday Of(HeatZone zone, House house, Site site, decimal setpointC)
    {
        var (watts, air) = (zone.MatWattsM2 ?? UsualWattsM2, house.AirC ?? House.AssumedAirC);
        var area = zone.Spaces.Count * SpaceM2;
        var lift = (double)Math.Clamp(setpointC - air, 0, 40);
        var (kwh, duty) = HouseHeat.Mat(area, lift, (double)watts);
        return new MatToday(kwh, duty.Value, site.KwhPrice * (decimal)kwh, new How(
            $"heat of zone {zone.Code} in a day",
            "area × 9 W m⁻² K⁻¹ × (setpoint − air) × 24 h, not more than its full power",
            [
                HowInput.Of("area", area, "0.0", "m²", string.Create(CultureInfo.InvariantCulture, $"{zone.Spaces.Count} spaces of 27.7 × 54.4 cm")),
                new HowInput("setpoint", Degrees.Of(setpointC, site.Units), "", "the zone, today"),
                new HowInput("air", Degrees.Of(air, site.Units), "", house.AirC is null ? "from memory" : $"house {house.Code}"),
                HowInput.Of("full power", (double)watts, "0", "W/m²", zone.MatWattsM2 is null ? "from memory" : $"zone {zone.Code}"),
                HowInput.Of("runs", duty.Percent, "0", "% of the time", "the formula"),
            ],
            "loss of a mat upwards 8–10 W m⁻² K⁻¹, from memory",
            "docs/agronomy/growth.md"));
    }
}
