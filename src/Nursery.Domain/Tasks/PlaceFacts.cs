using NodaTime;

namespace Nursery.Domain.Tasks;

/// <summary>What the rules of a bench or a house look at.</summary>
/// <param name="Subject">The bench or the house.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Batches">Batches that stand there; none: nothing to look at.</param>
/// <param name="Trays">Their trays.</param>
/// <param name="Since">Since when the ones longest there stand there; null when none do.</param>
/// <param name="DoneOn">When its task was last done; null for never.</param>
/// <param name="NextOccurrence">The lowest occurrence not closed.</param>
/// <param name="Today">The site's day.</param>
public sealed record PlaceFacts(
    TaskSubject Subject, string Name, int Batches, int Trays, LocalDate? Since, LocalDate? DoneOn, int NextOccurrence, LocalDate Today);
