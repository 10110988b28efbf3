using System.Text;
using Nursery.Domain.People;

namespace Nursery.Application.Batches;

/// <summary>The batches as CSV, for a spreadsheet.</summary>
public sealed class ExportBatches(ListBatches list)
{
    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var lines = (await list.HandleAsync(Paging.All, actor, cancellation)).Items
            .OrderBy(batch => batch.SownOn ?? batch.SowOn).ThenBy(batch => batch.Code, StringComparer.Ordinal)
            .ThenBy(batch => batch.TraySetCode, StringComparer.Ordinal)
            .Select(batch => CsvLine.Of(
                batch.Code, batch.TraySetCode, batch.Stage, batch.CropName, batch.VarietyCode, batch.VarietyName, batch.LotCode, batch.Trays,
                batch.CellsPerTray, batch.SeedsPerCell, batch.SowOn, batch.SownOn, batch.ReadyOn, batch.EmergedFraction, batch.LostPlants))
            .Prepend(CsvLine.Of(
                "batch", "tray_set", "stage", "crop", "variety", "variety_name", "lot", "trays",
                "cells_per_tray", "seeds_per_cell", "sow_on", "sown_on", "ready_on", "emerged", "lost_plants"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
