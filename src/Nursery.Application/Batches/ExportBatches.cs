using System.Globalization;
using System.Text;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.People;

namespace Nursery.Application.Batches;

/// <summary>The batches as CSV, for a spreadsheet.</summary>
public sealed class ExportBatches(ListBatches list)
{
    private static readonly SetupColumn[] Columns =
    [
        new("batch", "Batch", ColumnKind.Code),
        new("tray_set", "Tray set", ColumnKind.Code),
        new("stage", "Stage", ColumnKind.Word),
        new("crop", "Crop"),
        new("variety", "Variety", ColumnKind.Code),
        new("variety_name", "Name of the variety"),
        new("lot", "Lot", ColumnKind.Code),
        new("trays", "Trays", ColumnKind.Whole),
        new("cells_per_tray", "Cells a tray", ColumnKind.Whole),
        new("seeds_per_cell", "Seeds a cell", ColumnKind.Whole),
        new("sow_on", "To sow on", ColumnKind.Day),
        new("sown_on", "Sown on", ColumnKind.Day),
        new("ready_on", "Ready on", ColumnKind.Day),
        new("emerged", "Emerged, fraction of the seeds", ColumnKind.Number),
        new("lost_plants", "Plants lost", ColumnKind.Whole),
    ];

    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var batches = (await list.HandleAsync(Paging.All, actor, cancellation)).Items
            .OrderBy(batch => batch.SownOn ?? batch.SowOn).ThenBy(batch => batch.Code, StringComparer.Ordinal)
            .ThenBy(batch => batch.TraySetCode, StringComparer.Ordinal);
        return Encoding.UTF8.GetBytes(CsvWriting.Write(Columns, batches.Select(RowOf)));
    }

    private static Dictionary<string, string> RowOf(BatchItem batch) => new()
    {
        ["batch"] = batch.Code,
        ["tray_set"] = batch.TraySetCode,
        ["stage"] = char.ToLowerInvariant(batch.Stage.ToString()[0]) + batch.Stage.ToString()[1..],
        ["crop"] = batch.CropName,
        ["variety"] = batch.VarietyCode,
        ["variety_name"] = batch.VarietyName,
        ["lot"] = batch.LotCode ?? "",
        ["trays"] = Cell.Of(batch.Trays),
        ["cells_per_tray"] = Cell.Of(batch.CellsPerTray),
        ["seeds_per_cell"] = Cell.Of(batch.SeedsPerCell),
        ["sow_on"] = Cell.Of(batch.SowOn),
        ["sown_on"] = batch.SownOn is { } sown ? Cell.Of(sown) : "",
        ["ready_on"] = Cell.Of(batch.ReadyOn),
        ["emerged"] = batch.EmergedFraction?.ToString("0.####", CultureInfo.InvariantCulture) ?? "",
        ["lost_plants"] = Cell.Of(batch.LostPlants),
    };
}
