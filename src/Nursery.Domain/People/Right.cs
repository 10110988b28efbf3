namespace Nursery.Domain.People;

/// <summary>What an actor may do; the scopes of an API key have the same names.</summary>
public enum Right
{
    /// <summary>See everything of the site.</summary>
    Read,

    /// <summary>Orders, batches, reservations.</summary>
    Plan,

    /// <summary>Report work and counts.</summary>
    Ledger,

    /// <summary>People, API keys, jobs.</summary>
    Admin,
}
