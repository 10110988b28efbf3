namespace Nursery.Printing.RoundSheets;

/// <summary>A task of the round on paper.</summary>
/// <param name="Number">What is typed for it afterwards.</param>
/// <param name="Task">Such as "Check for emergence".</param>
/// <param name="Code">Of the batch, or of what it is about.</param>
/// <param name="Subject">Crop and variety in words.</param>
/// <param name="Where">Trays and spaces, such as "12 trays, spaces 1–12".</param>
/// <param name="Counts">What is counted, such as "seedlings up"; null prints no field for it.</param>
public sealed record RoundSheetLine(
    int Number, string Task, string Code, string Subject, string Where, string Why, string? Counts = null);
