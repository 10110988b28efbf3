namespace Nursery.Printing.GerminationReports;

/// <summary>The room for curves on the page, in points.</summary>
/// <param name="LabelHeight">Of a line of text.</param>
/// <param name="Left">For the words of the upright axis.</param>
/// <param name="Right">For the labels at the ends of the lines.</param>
/// <param name="Top">Above the plot.</param>
/// <param name="Bottom">For the words of the lower axis.</param>
public sealed record CurvesRoom(double Width, double Height, double LabelHeight, double Left, double Right, double Top, double Bottom);
