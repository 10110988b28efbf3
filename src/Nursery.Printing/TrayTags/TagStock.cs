namespace Nursery.Printing.TrayTags;

/// <summary>What tray tags are printed on.</summary>
public enum TagStock
{
    /// <summary>Ten tags on a letter sheet, to cut.</summary>
    Letter,

    /// <summary>Ten tags on an A4 sheet, to cut.</summary>
    A4,

    /// <summary>A roll of 2 × 4 in labels.</summary>
    Labels,

    /// <summary>A roll of 1 × 4 in stakes.</summary>
    Stakes,
}
