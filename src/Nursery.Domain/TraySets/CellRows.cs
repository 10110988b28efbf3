using System.Globalization;

namespace Nursery.Domain.TraySets;

/// <summary>Rows of cells of shared trays that are a batch's own. Rows are counted through all trays of the set.</summary>
/// <param name="Run">The rows, from 1.</param>
/// <param name="RowsPerTray">Rows of one tray.</param>
public readonly record struct CellRows(SpaceRun Run, int RowsPerTray)
{
    /// <summary>'cell rows 1–4' in a single tray; 'tray 1 cell rows 9–12, tray 2, tray 3 cell rows 1–2' in several.</summary>
    public string Words(int traysInSet) => traysInSet == 1 ? Rows(Run) : string.Join(", ", Trays());

    /// <summary>'cell rows 1–4' in one of the trays, counted from that tray's first; null when none lies there.</summary>
    public string? WordsIn(int tray) => tray >= InTrays.First && tray <= InTrays.Last ? Rows(Of(tray)) : null;

    /// <summary>The trays of the set these rows lie in.</summary>
    public SpaceRun InTrays
    {
        get
        {
            var (first, last) = (TrayOf(Run.First), TrayOf(Run.Last));
            return new SpaceRun(first, last - first + 1);
        }
    }

    /// <summary>What it has of its first and last tray, and the whole ones between together.</summary>
    private IEnumerable<string> Trays()
    {
        for (var tray = InTrays.First; tray <= InTrays.Last; tray++)
        {
            var own = Of(tray);
            var last = tray;
            while (own.Count == RowsPerTray && last < InTrays.Last && Of(last + 1).Count == RowsPerTray)
            {
                last++;
            }

            yield return (last > tray ? "trays " : "tray ") + new SpaceRun(tray, last - tray + 1)
                + (own.Count == RowsPerTray ? "" : " " + Rows(own));
            tray = last;
        }
    }

    /// <summary>Its rows in a tray, counted from that tray's first.</summary>
    private SpaceRun Of(int tray)
    {
        var before = (tray - 1) * RowsPerTray;
        var from = Math.Max(1, Run.First - before);
        return new SpaceRun(from, Math.Min(RowsPerTray, Run.Last - before) - from + 1);
    }

    private int TrayOf(int row) => ((row - 1) / RowsPerTray) + 1;

    private static string Rows(SpaceRun run) => (run.Count == 1 ? "cell row " : "cell rows ") + run;
}
