namespace Nursery.Printing.PatchSheets;

/// <summary>The moves of one batch.</summary>
/// <param name="Place">Where its trays stand.</param>
/// <param name="Sum">Moves, minutes, plants and spaces freed, in a sentence.</param>
/// <param name="Note">What the counts leave open; null for nothing.</param>
public sealed record PatchBatch(string Code, string Subject, string Place, string Sum, string? Note, IReadOnlyList<PatchLine> Lines);
