namespace Nursery.Printing.TrayTags;

/// <summary>All a print of tray tags needs.</summary>
/// <param name="PublicAddress">Where a scanned code leads; null prints the code alone.</param>
public sealed record TrayTagsModel(Imprint Imprint, string? PublicAddress, TagStock Stock, IReadOnlyList<TrayTagSet> Sets)
{
    public int Tags => Sets.Sum(set => set.Tags.Count);
}
