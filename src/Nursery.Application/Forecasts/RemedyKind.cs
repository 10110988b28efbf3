namespace Nursery.Application.Forecasts;

/// <summary>What can be done about a short stand; always told together.</summary>
public enum RemedyKind
{
    /// <summary>Days between ready and due.</summary>
    Slack,

    /// <summary>Seedlings moved into blanks.</summary>
    Patch,

    /// <summary>The same variety sown again.</summary>
    Resow,

    /// <summary>Another variety the customer takes.</summary>
    OtherVariety,

    /// <summary>What there is on its day, the rest later.</summary>
    PartDelivery,

    /// <summary>All of it later, if the customer agrees.</summary>
    LateByConsent,
}
