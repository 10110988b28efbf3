using Nursery.Printing.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.PlanTimeLines;

/// <summary>A bar with the place of its words: in it when it is long enough, else after it, at the right edge before it.</summary>
internal sealed class TimeLineLabel
{
    private const double _air = 3;

    public TimeLineLabel(TimeLineBar bar, TimeLineWindow window, TextSetter text)
    {
        Bar = bar;
        (From, To) = (window.X(bar.From), window.X(bar.To));
        Words = $"{bar.Code} {bar.Spaces}";
        Width = text.Width(Words, PlanCode);
        var room = To - From - 2 * _air;
        if (Width <= room)
        {
            At = From + _air;
            var left = room - Width - _air;
            var after = text.OneLine(bar.Variety, PlanText, left);
            Variety = left > 20 && text.Width(after, PlanText) <= left ? after : "";
            VarietyAt = At + Width + _air;
        }
        else
        {
            At = To + _air + Width <= window.Right ? To + _air : From - _air - Width;
        }
    }

    public TimeLineBar Bar { get; }

    /// <summary>Of the bar on the page.</summary>
    public double From { get; }

    public double To { get; }

    public string Words { get; }

    /// <summary>Of the words, which begin at <see cref="At"/>.</summary>
    public double Width { get; }

    public double At { get; }

    /// <summary>As much as has room in the bar; empty when nothing does.</summary>
    public string Variety { get; } = "";

    public double VarietyAt { get; }

    /// <summary>Where the bar or its words begin.</summary>
    public double Begin => Math.Min(From, At);

    public double End => Math.Max(To, At + Width);
}
