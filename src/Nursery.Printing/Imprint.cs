namespace Nursery.Printing;

/// <summary>What stands at the foot of every page besides its number.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="PrintedAt">The moment of printing, such as "24 November 2026, 14:05".</param>
/// <param name="Notice">A warning for every page, such as "Invented demo data".</param>
public sealed record Imprint(string Site, string PrintedAt, string? Notice = null);
