namespace Nursery.Agronomy.Mix;

/// <summary>Volume of one cell by cells of a 1020 tray. Source: plug-tray transplants, Ontario Ministry of Agriculture, Food and Rural Affairs;
/// makers differ.</summary>
public static class CellVolume
{
    private static readonly (int Cells, double Milliliters)[] Table = [(24, 171), (38, 106), (50, 66), (72, 43), (128, 23), (200, 11), (288, 7)];

    public static IReadOnlyList<int> Known { get; } = [.. Table.Select(row => row.Cells)];

    /// <summary>The published volume; between two tray sizes a straight line on logarithms.</summary>
    /// <param name="cells">24 to 288.</param>
    /// <exception cref="InputOutOfRange">Outside that.</exception>
    public static Volume Of(int cells)
    {
        InputOutOfRange.Within(cells, Table[0].Cells, Table[^1].Cells, nameof(cells), "cells");
        var next = Array.FindIndex(Table, row => row.Cells >= cells);
        if (Table[next].Cells == cells)
        {
            return Volume.FromMilliliters(Table[next].Milliliters);
        }

        var (from, to) = (Table[next - 1], Table[next]);
        var part = Math.Log((double)cells / from.Cells) / Math.Log((double)to.Cells / from.Cells);
        return Volume.FromMilliliters(Math.Exp(Math.Log(from.Milliliters) + (part * Math.Log(to.Milliliters / from.Milliliters))));
    }
}
