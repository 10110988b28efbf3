namespace Nursery.Agronomy.Feed;

/// <summary>How conductivity was measured.</summary>
public enum ConductivityMethod
{
    /// <summary>Saturated media extract.</summary>
    SaturatedMedia,

    /// <summary>One part of mix, two of water.</summary>
    OneToTwo,
}
