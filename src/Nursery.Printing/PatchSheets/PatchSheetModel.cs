namespace Nursery.Printing.PatchSheets;

/// <summary>Seedlings to move so that trays are full, batch by batch.</summary>
/// <param name="Day">Such as "Tuesday, 24 November 2026".</param>
public sealed record PatchSheetModel(Imprint Imprint, Paper Paper, string Day, IReadOnlyList<PatchBatch> Batches);
