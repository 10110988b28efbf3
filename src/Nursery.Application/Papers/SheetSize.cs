namespace Nursery.Application.Papers;

/// <summary>Paper that lists and plans come on: letter 8.5 × 11 in, A4 210 × 297 mm (ISO 216).</summary>
public enum SheetSize
{
    Letter,
    A4,
}
