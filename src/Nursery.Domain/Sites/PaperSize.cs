namespace Nursery.Domain.Sites;

/// <summary>Letter 8.5 × 11 in, A4 210 × 297 mm (ISO 216), or a roll of 2 × 4 in labels.</summary>
public enum PaperSize
{
    Letter,
    A4,
    Roll,
}
