using PdfSharp.Drawing;

namespace Nursery.Printing.BenchPlans;

/// <summary>Where the spaces of a bench lie on paper: space s is in column (s−1)/rows, row (s−1) mod rows, both from 0.</summary>
internal sealed class PlanGeometry(PlanBench bench, XRect box)
{
    private readonly int _columns = (bench.Capacity + bench.Rows - 1) / bench.Rows;

    public PlanBench Bench => bench;

    public XRect Box => box;

    private double Column => box.Width / _columns;

    private double Row => box.Height / bench.Rows;

    public XRect Space(int space) => new(
        box.X + (space - 1) / bench.Rows * Column, box.Y + (space - 1) % bench.Rows * Row, Column, Row);

    public XRect Around(int first, int count)
    {
        int left = (first - 1) / bench.Rows, right = (first + count - 2) / bench.Rows;
        return left == right
            ? XRect.Union(Space(first), Space(first + count - 1))
            : new XRect(box.X + left * Column, box.Y, (right - left + 1) * Column, box.Height);
    }

    /// <summary>The widest stretch of a run in one row: where its code has most room.</summary>
    public XRect Widest(int first, int count) => Enumerable.Range(first, count)
        .GroupBy(space => (space - 1) % bench.Rows)
        .Select(row => XRect.Union(Space(row.First()), Space(row.Last())))
        .OrderByDescending(stretch => stretch.Width).ThenBy(stretch => stretch.Y)
        .First();
}
