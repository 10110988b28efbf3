namespace Nursery.Printing.PatchSheets;

/// <summary>Seedlings out of one tray into blanks of another.</summary>
/// <param name="From">Such as "tray 3".</param>
/// <param name="Seedlings">Such as "14".</param>
/// <param name="To">Such as "tray 1", or "blanks of the same tray".</param>
/// <param name="Then">Such as "tray 3 is empty: clear it"; null for nothing.</param>
public sealed record PatchLine(string From, string Seedlings, string To, string? Then);
