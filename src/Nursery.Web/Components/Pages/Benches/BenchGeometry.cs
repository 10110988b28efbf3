using System.Globalization;
using System.Text;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Where the tray spaces of a bench lie in a drawing of its house. Spaces are numbered from 1 down each column,
/// then along the bench: space s is in column (s−1)/rows, row (s−1) mod rows, both from 0.</summary>
public sealed class BenchGeometry
{
    /// <summary>Drawing units the longest side of a house takes: the map column of a 1280 px screen.</summary>
    public const double MapWidth = 880;

    /// <summary>Below this a tray (27.7 cm wide) is hard to hit; a longer house scrolls instead.</summary>
    public const double SmallestScale = 0.3;

    private const double Gap = 1;
    private readonly double _column;
    private readonly double _row;

    public BenchGeometry(Box bench, int rows, int capacity)
    {
        Bench = bench;
        Rows = rows;
        Capacity = capacity;
        Columns = (capacity + rows - 1) / rows;
        _column = bench.Width / Columns;
        _row = bench.Height / rows;
    }

    public Box Bench { get; }

    public int Rows { get; }

    public int Columns { get; }

    public int Capacity { get; }

    /// <summary>Drawing units a cm.</summary>
    public static double ScaleOf(int houseLengthCm) => Math.Max(SmallestScale, MapWidth / houseLengthCm);

    public int ColumnOf(int space) => (space - 1) / Rows;

    public int RowOf(int space) => (space - 1) % Rows;

    /// <summary>The tray in a space, with a hair of air around it.</summary>
    public Box Space(int space) => new(
        Bench.X + (ColumnOf(space) * _column) + Gap,
        Bench.Y + (RowOf(space) * _row) + Gap,
        _column - (2 * Gap),
        _row - (2 * Gap));

    /// <summary>The space at a point; null beside the bench and where its last column is short.</summary>
    public int? SpaceAt(double x, double y)
    {
        if (x < Bench.X || x >= Bench.Right || y < Bench.Y || y >= Bench.Bottom)
        {
            return null;
        }

        var space = ((int)((x - Bench.X) / _column) * Rows) + (int)((y - Bench.Y) / _row) + 1;
        return space <= Capacity ? space : null;
    }

    public Box Around(int first, int count)
    {
        var (left, right) = (ColumnOf(first), ColumnOf(first + count - 1));
        var (top, bottom) = left == right ? (RowOf(first), RowOf(first + count - 1)) : (0, Rows - 1);
        return new Box(
            Bench.X + (left * _column), Bench.Y + (top * _row), (right - left + 1) * _column, (bottom - top + 1) * _row);
    }

    /// <summary>The stretch of a run in each row it has trays in.</summary>
    public IEnumerable<Box> RowStretches(int first, int count)
    {
        var last = first + count - 1;
        for (var row = 0; row < Rows; row++)
        {
            var left = ColumnOf(first) + (row < RowOf(first) ? 1 : 0);
            var right = ColumnOf(last) - (row > RowOf(last) ? 1 : 0);
            if (left <= right)
            {
                yield return new Box(
                    Bench.X + (left * _column), Bench.Y + (row * _row), (right - left + 1) * _column, _row);
            }
        }
    }

    /// <summary>One path with a rectangle a space.</summary>
    public string TraysPath(IEnumerable<int> spaces)
    {
        var path = new StringBuilder();
        foreach (var space in spaces)
        {
            var box = Space(space);
            path.Append('M').Number(box.X).Append(' ').Number(box.Y).Append('h').Number(box.Width)
                .Append('v').Number(box.Height).Append("h-").Number(box.Width).Append('z');
        }

        return path.ToString();
    }

    /// <summary>The line around a run of spaces, standing out by <paramref name="pad"/> where it meets the bench's edge.</summary>
    public string OutlinePath(int first, int count, double pad)
    {
        var last = first + count - 1;
        var (left, right) = (ColumnOf(first), ColumnOf(last));
        var box = Around(first, count);
        double x0 = box.X - (left == 0 ? pad : 0), x1 = box.Right + (right == Columns - 1 ? pad : 0);
        double top = box.Y - (RowOf(first) == 0 || left < right ? pad : 0);
        double bottom = box.Bottom + (RowOf(last) == Rows - 1 || left < right ? pad : 0);
        var points = new List<(double X, double Y)>();
        if (left == right || RowOf(first) == 0)
        {
            points.Add((x0, top));
        }
        else
        {
            var step = Bench.Y + (RowOf(first) * _row);
            points.AddRange([(x0, step), (box.X + _column, step), (box.X + _column, top)]);
        }

        points.Add((x1, top));
        if (left == right || RowOf(last) == Rows - 1)
        {
            points.Add((x1, bottom));
        }
        else
        {
            var step = Bench.Y + ((RowOf(last) + 1) * _row);
            points.AddRange([(x1, step), (box.Right - _column, step), (box.Right - _column, bottom)]);
        }

        points.Add((x0, bottom));
        return "M" + string.Join('L', points.Select(point => string.Create(
            CultureInfo.InvariantCulture, $"{point.X:0.#} {point.Y:0.#}"))) + "Z";
    }
}
