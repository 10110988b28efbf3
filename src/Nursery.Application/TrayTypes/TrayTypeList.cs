using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.TraySets;

namespace Nursery.Application.TrayTypes;

internal sealed class TrayTypeList : SetupList<TrayType>
{
    public override SetupListInfo Info { get; } = new("tray-types", "Tray types", "tray type", Right.Plan,
    [
        new("code", "Code") { Hint = "P72" },
        new("name", "Name"),
        new("cells", "Cells", ColumnKind.Whole),
        new("cell_volume_ml", "A cell holds, mL", ColumnKind.Number) { MayBeEmpty = true, Hint = "growing mix" },
        new("length_mm", "Outer length", ColumnKind.Millimeters),
        new("width_mm", "Outer width", ColumnKind.Millimeters),
        new("sources", "Sources", ColumnKind.LongText) { Hint = "where each value is from: a publication, 'measured', or 'common practice, no source'" },
    ]);

    public override Dictionary<string, TrayType> Of(NurseryRows rows) => rows.TrayTypes;

    public override TrayType Read(CsvRow line, NurseryRows rows, TrayType? known) => new()
    {
        Id = known?.Id ?? NewId.Of<TrayType>(rows.Time),
        Code = line.Text("code", 20),
        Name = line.Text("name"),
        Cells = line.Whole("cells", 1, 512),
        CellVolumeMl = line.NumberOrEmpty("cell_volume_ml", 0.1m, 10_000),
        LengthMm = Math.Round(line.Number("length_mm", 10, 2000), 1),
        WidthMm = Math.Round(line.Number("width_mm", 10, 2000), 1),
        Sources = line.Text("sources", 4000),
        RetiredOn = known?.RetiredOn,
        Version = (known?.Version ?? 0) + 1,
    };

    protected override IReadOnlyDictionary<string, string> Fields(TrayType row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["code"] = row.Code,
        ["name"] = row.Name,
        ["cells"] = Cell.Of(row.Cells),
        ["cell_volume_ml"] = row.CellVolumeMl is { } volume ? Cell.Of(volume) : "",
        ["length_mm"] = Cell.Of(row.LengthMm),
        ["width_mm"] = Cell.Of(row.WidthMm),
        ["sources"] = row.Sources,
    };

    protected override Guid IdOf(TrayType row) => row.Id.Value;

    protected override int VersionOf(TrayType row) => row.Version;

    protected override LocalDate? RetiredOn(TrayType row) => row.RetiredOn;

    protected override void TakeBack(TrayType row) => row.RetiredOn = null;

    protected override IEnumerable<TrayType> Sorted(IEnumerable<TrayType> all, NurseryRows rows) =>
        all.OrderBy(row => row.Cells).ThenBy(row => row.Code, StringComparer.Ordinal);

    /// <summary>Trays keep the cells they were planned with.</summary>
    protected override async Task CheckAsync(
        NurseryDbContext database, CsvRow line, TrayType known, TrayType read, NurseryRows rows, CancellationToken cancellation)
    {
        if (read.Cells != known.Cells && await database.TraySets.AnyAsync(set => set.TrayTypeId == known.Id, cancellation))
        {
            line.Fail("cells", Cell.Of(known.Cells) + ", as the batches in such trays have: make another tray type");
        }
    }

    public override async Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var type = rows.TrayTypes[key];
        if (!await database.TraySets.AnyAsync(set => set.TrayTypeId == type.Id, cancellation))
        {
            database.Remove(type);
            return true;
        }

        type.RetiredOn = rows.Site.Today(rows.Time);
        type.Version++;
        return false;
    }
}
