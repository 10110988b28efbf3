using Nursery.Domain;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>The rows of cells of shared trays dealt out in order; the first batch's tray set takes them all in.</summary>
internal sealed class RowLayout
{
    private readonly CellGrid _grid;
    private readonly int _traysBefore;

    private RowLayout(TraySet set, CellGrid grid, IReadOnlyList<TrayShare> shares, int traysBefore) =>
        (Set, _grid, Shares, _traysBefore) = (set, grid, shares, traysBefore);

    public TraySet Set { get; }

    public IReadOnlyList<TrayShare> Shares { get; }

    /// <summary>Makes the first batch's tray set as large as all need.</summary>
    public static RowLayout Of(IReadOnlyList<(TrayPart Part, SharerRow Row)> chosen)
    {
        var set = chosen[0].Row.Row.TraySet;
        var grid = CellGrid.Of(set.CellsPerTray);
        var traysBefore = chosen.Sum(pair => pair.Row.Row.TraySet.Trays);
        var shares = new List<TrayShare>();
        var next = 1;
        var checks = new FieldChecks();
        foreach (var (part, row) in chosen)
        {
            var rows = part.Rows ?? RowsFor(row.CellsNeeded, grid);
            checks.Range("parts.rows", rows, 1, 10_000);
            shares.Add(new TrayShare
            {
                TraySetId = set.Id,
                BatchId = row.Row.Batch.Id,
                Cells = rows * grid.CellsInRow,
                FirstRow = next,
                Rows = rows,
            });
            next += rows;
        }

        checks.Done();
        set.Trays = (next - 1 + grid.Rows - 1) / grid.Rows;
        return new RowLayout(set, grid, shares, traysBefore);
    }

    public SharedTrays Result(IReadOnlyList<(TrayPart Part, SharerRow Row)> chosen, IReadOnlyList<string> follows)
    {
        var sharers = chosen.Select(pair => pair.Row.Sharer).ToList();
        return new SharedTrays(
            Set.Code, Set.Trays, Set.CellsPerTray, _grid.Rows, _grid.CellsInRow, _traysBefore - Set.Trays,
            (Set.Trays * _grid.Rows) - Shares.Sum(share => share.Rows!.Value),
            sharers.Max(sharer => sharer.Crop.GerminationMinC), sharers.Min(sharer => sharer.Crop.GerminationMaxC),
            sharers.Min(sharer => sharer.MoveOffOn), sharers.Max(sharer => sharer.MoveOffOn),
            [
                .. chosen.Zip(Shares, (pair, share) => new SharedPart(
                    pair.Part.BatchId, pair.Row.Row.Batch.Code, pair.Row.Row.Crop.Name, pair.Row.Row.Variety.Name,
                    share.Rows!.Value, share.Part(Set)!, share.Cells, pair.Row.CellsNeeded,
                    pair.Row.Row.Batch.SowOn, pair.Row.Sharer.MoveOffOn)),
            ],
            follows);
    }

    private static int RowsFor(int cells, CellGrid grid) => (cells + grid.CellsInRow - 1) / grid.CellsInRow;
}
