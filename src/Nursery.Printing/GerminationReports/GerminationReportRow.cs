namespace Nursery.Printing.GerminationReports;

/// <summary>A crop, variety, lot or house. Each figure is a text such as "78.4 %", the last three with something beside it.</summary>
/// <param name="Half">Days until half were up, and of how many batches.</param>
/// <param name="Label">Label germination, and the difference to it.</param>
/// <param name="Minimum">Published minimum, and the difference to it.</param>
public sealed record GerminationReportRow(
    string Name,
    string Batches,
    string Seeds,
    string Emerged,
    string Rate,
    string Spread,
    (string Figure, string Beside) Half,
    (string Figure, string Beside) Label,
    (string Figure, string Beside) Minimum);
