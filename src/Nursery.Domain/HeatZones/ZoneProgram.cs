using NodaTime;

namespace Nursery.Domain.HeatZones;

/// <summary>What a zone is set to, day by day.</summary>
public sealed class ZoneProgram(HeatZone zone, IEnumerable<ZoneSetpoint> spans)
{
    private readonly IReadOnlyList<ZoneSetpoint> _spans =
        [.. spans.Where(span => span.ZoneId == zone.Id).OrderBy(span => span.Days.Start)];

    public HeatZone Zone => zone;

    /// <summary>°C on a day.</summary>
    public decimal On(LocalDate day) =>
        _spans.FirstOrDefault(span => span.Days.Contains(day))?.SetpointC ?? zone.SetpointC;

    /// <summary>Every setpoint from a day to the first day no longer asked for, in order, each once.</summary>
    public IReadOnlyList<decimal> Over(LocalDate from, LocalDate to)
    {
        var setpoints = new List<decimal>();
        var day = from;
        while (day < to)
        {
            setpoints.Add(On(day));
            day = NextChange(day);
        }

        return [.. setpoints.Distinct()];
    }

    /// <summary>Stretches of one setpoint from a day to the first day no longer asked for, in order.</summary>
    public IEnumerable<(LocalDate From, LocalDate To, decimal SetpointC)> Stretches(LocalDate from, LocalDate to)
    {
        var day = from;
        while (day < to)
        {
            var next = LocalDate.Min(NextChange(day), to);
            yield return (day, next, On(day));
            day = next;
        }
    }

    private LocalDate NextChange(LocalDate day)
    {
        if (_spans.FirstOrDefault(span => span.Days.Contains(day)) is { } inside)
        {
            return inside.Days.End.PlusDays(1);
        }

        return _spans.FirstOrDefault(span => span.Days.Start > day)?.Days.Start ?? LocalDate.MaxIsoValue;
    }
}
