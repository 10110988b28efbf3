namespace Nursery.Agronomy.Patching;

/// <summary>Seedlings lifted out of one tray into blanks of another, or of the same.</summary>
/// <param name="From">Number of the tray.</param>
/// <param name="To">Number of the tray.</param>
/// <param name="Seedlings">1 or more.</param>
public readonly record struct PatchMove(int From, int To, int Seedlings);
