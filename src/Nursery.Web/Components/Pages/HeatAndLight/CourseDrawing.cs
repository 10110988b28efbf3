using NodaTime;
using Nursery.Application.HeatAndLight;

namespace Nursery.Web.Components.Pages.HeatAndLight;

/// <summary>Where the course of a zone lies on its drawing; y falls with the temperature.</summary>
internal sealed class CourseDrawing
{
    public const double Width = 460;
    public const double Height = 150;
    public const double Left = 46;
    public const double Right = Width - 8;
    public const double Top = 10;
    public const double Bottom = Height - 24;

    /// <summary>Longer without a reading the line is broken.</summary>
    private static readonly Duration Gap = Duration.FromHours(8);

    private readonly Instant _from;
    private readonly Instant _to;
    private readonly double _low;
    private readonly double _high;

    public CourseDrawing(ZoneClimate zone, Instant from, Instant to)
    {
        (_from, _to) = (from, to);
        var all = zone.Course.SelectMany(point => new[] { point.LowC, point.HighC }).Append(zone.SetpointC).Select(value => (double)value).ToList();
        (_low, _high) = (Math.Floor(all.Min() - 1.5), Math.Ceiling(all.Max() + 1.5));
        Band = zone is { BandMinC: { } low, BandMaxC: { } high } && (double)low < _high && (double)high > _low
            ? (Y(Math.Min((double)high, _high)), Y(Math.Max((double)low, _low)))
            : null;
        Lines = [.. Stretches(zone.Course).Select(points => points.Select(point => (X(point.At), Y((double)point.MeanC))).ToList())];
        Spread = [.. zone.Course.Select(point => (X(point.At), Y((double)point.HighC), Y((double)point.LowC)))];
        Setpoint = Y((double)zone.SetpointC);
    }

    public decimal LowC => (decimal)_low;

    public decimal HighC => (decimal)_high;

    public double Setpoint { get; }

    /// <summary>Top and bottom of what all crops bear; null when none of it is in the picture.</summary>
    public (double Top, double Bottom)? Band { get; }

    public IReadOnlyList<IReadOnlyList<(double X, double Y)>> Lines { get; }

    public IReadOnlyList<(double X, double Top, double Bottom)> Spread { get; }

    public double X(Instant at) => Left + ((Right - Left) * Math.Clamp((at - _from) / (_to - _from), 0, 1));

    private double Y(double celsius) => Top + ((Bottom - Top) * (_high - celsius) / (_high - _low));

    private static IEnumerable<List<CoursePoint>> Stretches(IReadOnlyList<CoursePoint> course)
    {
        var stretch = new List<CoursePoint>();
        foreach (var point in course)
        {
            if (stretch.Count > 0 && point.At - stretch[^1].At > Gap)
            {
                yield return stretch;
                stretch = [];
            }

            stretch.Add(point);
        }

        if (stretch.Count > 0)
        {
            yield return stretch;
        }
    }
}
