namespace Nursery.Application.Setup.Lists;

/// <summary>What the cells of a column say; files hold SI units, forms the site's.</summary>
public enum ColumnKind
{
    Text,
    LongText,
    Whole,
    Number,
    Day,
    Word,
    Centimeters,
    Millimeters,
    Celsius,

    /// <summary>The code of a row of another list.</summary>
    Code,
}
