namespace Nursery.Domain.Refusals;

public enum RefusalKind
{
    /// <summary>The request could not be read.</summary>
    Malformed,
    NotAllowed,
    NotFound,

    /// <summary>Refused by the state of things; another time it may pass.</summary>
    State,
    TooLarge,

    /// <summary>A value outside what is allowed.</summary>
    Rule,
}
