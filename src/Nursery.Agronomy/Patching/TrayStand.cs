namespace Nursery.Agronomy.Patching;

/// <summary>What stands in a tray.</summary>
/// <param name="Tray">Its number.</param>
/// <param name="Plants">Cells with a plant, 0 to the cells of a tray.</param>
/// <param name="Spare">Seedlings beside another in their cell, 0 or more.</param>
public readonly record struct TrayStand(int Tray, int Plants, int Spare);
