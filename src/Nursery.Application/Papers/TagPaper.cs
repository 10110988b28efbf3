namespace Nursery.Application.Papers;

/// <summary>What tray tags are printed on: ten to a sheet to cut, a roll of 2 × 4 in labels, or a roll of 1 × 4 in stakes.</summary>
public enum TagPaper
{
    Letter,
    A4,
    Labels,
    Stakes,
}
