namespace Nursery.Printing;

/// <summary>What lies in the printer.</summary>
public enum Paper
{
    /// <summary>8.5 × 11 in.</summary>
    Letter,

    /// <summary>210 × 297 mm (ISO 216).</summary>
    A4,

    /// <summary>A roll of 2 × 4 in labels, one bench each.</summary>
    Roll,
}
