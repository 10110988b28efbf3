namespace Nursery.Domain.Runs;

public enum RunState
{
    Queued,
    Running,

    /// <summary>All of it was looked at.</summary>
    Done,

    /// <summary>Someone stopped it; what it had done stays.</summary>
    Stopped,

    /// <summary>Something went wrong; what it had done stays.</summary>
    Failed,

    /// <summary>The server ended before it did; what it had done stays.</summary>
    Interrupted,
}
