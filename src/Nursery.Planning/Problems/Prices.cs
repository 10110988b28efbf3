namespace Nursery.Planning.Problems;

/// <summary>What is paid for what, in cents, each 0 to 1,000,000.</summary>
/// <param name="DayOffDue">A tray, a day ready before or after due.</param>
/// <param name="DayLate">A tray, a day ready after the last day that is on time; on top of <paramref name="DayOffDue"/>.</param>
/// <param name="DegreeOff">A tray, a day on heat, a °F away from the setpoint its crop likes best.</param>
/// <param name="UnplacedTray">A tray without a place.</param>
/// <param name="HeatTenDegrees">A space of a zone that is on, a day, ten °F above <paramref name="HeatFreeF"/>; a zone's week is
/// rounded down to whole cents.</param>
/// <param name="HeatFreeF">°F that cost nothing.</param>
/// <param name="SetpointChange">A zone whose setpoint differs from the week before, off counted as one.</param>
/// <param name="Split">Each part of a batch beyond one zone and one bench; in the positioned cost each run of spaces beyond.</param>
/// <param name="MovedSowDay">A batch whose sow day differs from the plan of today.</param>
/// <param name="MovedPlace">A batch whose zone, and one whose bench, differs from it.</param>
/// <param name="OtherHouse">A tray carried off heat to another house (from memory; it decides nothing but between places that cost the same).</param>
public sealed record Prices(
    int DayOffDue = 2,
    int DayLate = 50,
    int DegreeOff = 1,
    int UnplacedTray = 3000,
    int HeatTenDegrees = 1,
    double HeatFreeF = 55,
    int SetpointChange = 1000,
    int Split = 500,
    int MovedSowDay = 500,
    int MovedPlace = 300,
    int OtherHouse = 5)
{
    public static Prices Usual { get; } = new();
}
