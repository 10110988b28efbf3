namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A place a label could take.</summary>
public readonly record struct LabelChoice(Box Box, Line? Leader = null);
