namespace Nursery.Application.Setup.Lists;

public enum ChangeKind
{
    Created,
    Changed,
    Unchanged,
}

/// <summary>What a line of a file does, or would do, to a row.</summary>
public sealed record SetupChange(string Key, ChangeKind Kind, IReadOnlyList<FieldChange> Fields, int? Line);

/// <summary>One field of it: what stands there and what would; null before when there was nothing.</summary>
public sealed record FieldChange(string Field, string? Before, string After);
