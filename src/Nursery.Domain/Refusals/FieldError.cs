namespace Nursery.Domain.Refusals;

/// <summary>One field at fault: its name, the value it had, what is allowed, and the line of a file (from 1, the header is line 1).</summary>
public sealed record FieldError(string Field, string? Value, string Allowed, int? Line = null);
