namespace Nursery.Printing.Drawing;

/// <summary>What the foot of every page says beside its number.</summary>
internal readonly record struct Footing(string Site, string PrintedAt, string? Notice);
