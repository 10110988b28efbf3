namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Things by where they lie, in cells about the size of a label: who asks what is near looks at a few, not at all of them.</summary>
internal sealed class NearGrid<T>
{
    private const double CellWidth = 64;
    private const double CellHeight = 32;
    private readonly Box _bounds;
    private readonly int _columns;
    private readonly int _rows;
    private readonly List<T>?[] _cells;

    public NearGrid(Box bounds)
    {
        _bounds = bounds;
        _columns = Math.Max(1, (int)Math.Ceiling(bounds.Width / CellWidth));
        _rows = Math.Max(1, (int)Math.Ceiling(bounds.Height / CellHeight));
        _cells = new List<T>?[_columns * _rows];
    }

    public void Add(Box around, T thing)
    {
        var (left, top, right, bottom) = Cells(around);
        for (var row = top; row <= bottom; row++)
        {
            for (var column = left; column <= right; column++)
            {
                (_cells[(row * _columns) + column] ??= []).Add(thing);
            }
        }
    }

    /// <summary>Whether something near is what is asked for; <paramref name="with"/> spares a closure.</summary>
    public bool Any<TWith>(Box around, TWith with, Func<T, TWith, bool> test)
    {
        var (left, top, right, bottom) = Cells(around);
        for (var row = top; row <= bottom; row++)
        {
            for (var column = left; column <= right; column++)
            {
                if (_cells[(row * _columns) + column] is not { } cell)
                {
                    continue;
                }

                foreach (var thing in cell)
                {
                    if (test(thing, with))
                    {
                        return true;
                    }
                }
            }
        }

        return false;
    }

    // What lies outside belongs to the cells at the edge.
    private (int Left, int Top, int Right, int Bottom) Cells(Box around) => (
        Clamp((around.X - _bounds.X) / CellWidth, _columns),
        Clamp((around.Y - _bounds.Y) / CellHeight, _rows),
        Clamp((around.Right - _bounds.X) / CellWidth, _columns),
        Clamp((around.Bottom - _bounds.Y) / CellHeight, _rows));

    private static int Clamp(double cell, int count) => Math.Clamp((int)cell, 0, count - 1);
}
