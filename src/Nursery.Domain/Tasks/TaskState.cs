namespace Nursery.Domain.Tasks;

public enum TaskState
{
    Open,
    Done,

    /// <summary>No longer needed; comes back as the same row if it is needed again.</summary>
    Withdrawn,
}
