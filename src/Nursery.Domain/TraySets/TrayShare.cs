using Nursery.Domain.Batches;

namespace Nursery.Domain.TraySets;

/// <summary>The cells of a tray set in which a batch lies.</summary>
public sealed class TrayShare
{
    public required Id<TraySet> TraySetId { get; init; }
    public required Id<Batch> BatchId { get; init; }
    public required int Cells { get; set; }
}
