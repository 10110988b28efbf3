using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Heat;

/// <summary>A batch that was counted on a zone.</summary>
/// <param name="Zone">Where it lay.</param>
/// <param name="Crop">Batches of a crop share what its table is off by.</param>
/// <param name="Variety">Batches of a variety share its speed.</param>
/// <param name="Rate">Of the crop by temperature of the mix.</param>
/// <param name="Setpoints">What the zone was set to: each holds from its day, 0 first, to the next.</param>
/// <param name="Days">From sowing to the last count, above 0, to 366.</param>
/// <param name="LogSlower">How much slower it came up than the crop at the usual offset: ln of thermal times, −3 to 3.</param>
/// <param name="Error">Standard error of that by the counts, above 0, to 3.</param>
public sealed record ZoneBatch(
    string Zone, string Crop, string Variety, RateModel Rate, IReadOnlyList<(double Day, Temperature Setpoint)> Setpoints, double Days,
    double LogSlower, double Error)
{
    /// <summary>Colder than the base nothing grows; the logarithm ends here.</summary>
    private const double LeastShare = 0.02;

    /// <summary>What a mix at this offset from the setpoint would make of a batch as quick as its crop: ln of how much slower it comes
    /// up than at the usual offset.</summary>
    internal double LogSlowerAt(double offset)
    {
        var (usual, here) = (Progress((double)MediaOffset.DefaultCelsius), Progress(offset));
        return -Math.Log(Math.Max(LeastShare, here / usual));
    }

    internal bool HasProgress => Progress((double)MediaOffset.DefaultCelsius) > 0;

    internal void Check()
    {
        InputOutOfRange.Above(Days, 0, 366, "days", "days");
        InputOutOfRange.Within(LogSlower, -3, 3, "logSlower", "");
        InputOutOfRange.Above(Error, 0, 3, "error", "");
    }

    private double Progress(double offset) => new TemperatureRecord(
        [.. Setpoints.Select(step => (step.Day, Temperature.FromDegrees(step.Setpoint.C + offset)))]).ProgressAt(Rate, Days);
}
