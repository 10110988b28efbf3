namespace Nursery.Domain.Tasks;

/// <summary>A task that should be open, and what it is about.</summary>
public sealed record WantedTask(TaskSubject Subject, DueTask Task);
