namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A placed text of one or two lines, with a leader when it stands beside what it names.</summary>
public sealed record Label(Box Box, string Text, string? Second = null, Line? Leader = null);
