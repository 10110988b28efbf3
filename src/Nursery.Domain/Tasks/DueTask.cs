using NodaTime;

namespace Nursery.Domain.Tasks;

/// <summary>What a rule asks for: one open task of a batch, when, and why in a sentence with numbers.</summary>
public sealed record DueTask(TaskKind Kind, int Occurrence, LocalDate DueOn, string Why);
