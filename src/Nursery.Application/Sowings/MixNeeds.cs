using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy;
using Nursery.Agronomy.Mix;
using Nursery.Application.Batches;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Sowings;

/// <summary>How much growing mix the cells of a batch take: of the tray's own type where its cells are measured, else as published for the
/// number of cells.</summary>
internal sealed class MixNeeds
{
    private readonly Dictionary<Id<TrayType>, decimal> _volumes;

    private MixNeeds(Dictionary<Id<TrayType>, decimal> volumes) => _volumes = volumes;

    public static async Task<MixNeeds> LoadAsync(NurseryDbContext database, CancellationToken cancellation) => new(
        await database.TrayTypes.Where(row => row.CellVolumeMl != null).ToDictionaryAsync(row => row.Id, row => row.CellVolumeMl!.Value, cancellation));

    /// <summary>Milliliters of one cell; null where nobody knows.</summary>
    public double? CellMl(TraySet traySet) => traySet.TrayTypeId is { } type && _volumes.TryGetValue(type, out var known)
        ? (double)known
        : traySet.CellsPerTray >= CellVolume.Known[0] && traySet.CellsPerTray <= CellVolume.Known[^1] ? CellVolume.Of(traySet.CellsPerTray).Milliliters : null;

    /// <summary>Liters for the batch's own cells, with what settles and what is spilled; null where nobody knows the cells.</summary>
    public double? LitersOf(BatchRow row)
    {
        if (CellMl(row.TraySet) is not { } cell)
        {
            return null;
        }

        var whole = MixVolume.Of(
            row.TraySet.Trays, row.TraySet.CellsPerTray, Volume.FromMilliliters(cell),
            new Fraction(MixVolume.UsualSettling), new Fraction(MixVolume.UsualWaste), []);
        return whole.Volume.Liters * row.Batch.Cells / (row.TraySet.Trays * (double)row.TraySet.CellsPerTray);
    }
}
