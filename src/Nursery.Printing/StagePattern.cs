namespace Nursery.Printing;

/// <summary>How far a batch is, as a word and a pattern; the screens use the same six.</summary>
public enum StagePattern
{
    /// <summary>Reserved, nothing stands there yet: dashed outline.</summary>
    Planned,

    /// <summary>Dots.</summary>
    Sown,

    /// <summary>Seedlings.</summary>
    Emerging,

    /// <summary>Stripes.</summary>
    GrowingOn,

    /// <summary>Grid.</summary>
    HardeningOff,

    /// <summary>Solid.</summary>
    Ready,
}
