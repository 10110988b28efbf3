using NodaTime;

namespace Nursery.Domain.Tasks;

/// <summary>An open task as it is stored.</summary>
public sealed record OpenTask(Id<RoundTask> Id, Guid Subject, TaskKind Kind, int Occurrence, LocalDate DueOn, string Why);
