using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Application.Benches;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Stages;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>The sentences and figures of the benches screen.</summary>
public static class MapText
{
    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-US");
    private static readonly LocalDatePattern DayMonth = LocalDatePattern.Create("d MMMM", English);
    private static readonly LocalDatePattern WeekdayDayMonth = LocalDatePattern.Create("ddd d MMMM", English);
    private static readonly LocalDatePattern MonthName = LocalDatePattern.Create("MMM", English);
    private static readonly LocalDatePattern Full = LocalDatePattern.Create("dddd d MMMM uuuu", English);

    public static string Day(LocalDate day) => DayMonth.Format(day);

    public static string Weekday(LocalDate day) => WeekdayDayMonth.Format(day);

    public static string Month(LocalDate day) => MonthName.Format(day);

    public static string FullDay(LocalDate day) => Full.Format(day);

    public static string Degrees(decimal celsius, Units units) => Number(celsius, units) + (units == Units.Metric ? " °C" : " °F");

    /// <summary>'80 °F · reads 79.4'.</summary>
    public static string Plate(HouseZone zone, Units units) => zone.ReadsC is { } reads
        ? $"{Degrees(zone.SetpointC, units)} · reads {Number(reads, units)}"
        : $"{Degrees(zone.SetpointC, units)} · no reading";

    public static string Free(HouseBench bench) => string.Create(CultureInfo.InvariantCulture, $"{bench.Free} free of {bench.Capacity}");

    public static string Trays(int trays) => trays == 1 ? "1 tray" : string.Create(CultureInfo.InvariantCulture, $"{trays} trays");

    /// <summary>'Eggplant ‘Inkwell’'.</summary>
    public static string Name(BenchTrays trays) => $"{trays.CropName} ‘{trays.VarietyName}’";

    public static string Spoken(TraySetOnBench set)
    {
        var names = string.Join(" and ", set.Batches.Select(Name));
        var place = set.Run is { } run ? $"bench {set.BenchCode}, spaces {run}" : $"bench {set.BenchCode}, spaces not told";
        var stands = set.Fact == PlanAgainstFact.ReservedOnly ? ", reserved only" : "";
        var trouble = set.Trouble is null ? "" : ", " + set.Trouble;
        return $"{set.Code}, {names}, {StageWords.Of(set.Stage)}, {Trays(set.Trays)}, {place}{stands}{trouble}";
    }

    private static string Number(decimal celsius, Units units) =>
        (units == Units.Metric ? celsius : new Temperature(celsius).Fahrenheit).ToString("0.#", CultureInfo.InvariantCulture);
}
