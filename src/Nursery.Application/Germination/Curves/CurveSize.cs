namespace Nursery.Application.Germination.Curves;

/// <summary>The room for curves and the words around them, in whatever unit it is drawn in.</summary>
/// <param name="LabelHeight">Of a line of text, so that labels never overlap.</param>
/// <param name="Left">Room for the words of the upright axis.</param>
/// <param name="Right">Room for the labels at the ends of the lines.</param>
/// <param name="Top">Room above.</param>
/// <param name="Bottom">Room for the words of the lower axis.</param>
public sealed record CurveSize(double Width, double Height, double LabelHeight, double Left, double Right, double Top, double Bottom)
{
    public double PlotRight => Width - Right;

    public double PlotBottom => Height - Bottom;
}
