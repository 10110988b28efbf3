using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.SeedLots;

/// <summary>Seed lots. What a file calls seeds is what was received; more of it is a receipt, less takes back a wrong one.</summary>
internal sealed class LotList : SetupList<SeedLot>
{
    private static readonly Dictionary<string, SeedForm> Forms = new()
    {
        ["raw"] = SeedForm.Raw,
        ["pelleted"] = SeedForm.Pelleted,
        ["primed"] = SeedForm.Primed,
    };

    internal static IReadOnlyDictionary<string, bool> YesNo { get; } = new Dictionary<string, bool> { ["yes"] = true, ["no"] = false };

    public override SetupListInfo Info { get; } = new("seed-lots", "Seed lots", "seed lot", Right.Plan,
    [
        new("code", "Code") { Hint = "our number for the lot: L-0401" },
        new("variety", "Variety", ColumnKind.Code) { Of = "varieties" },
        new("supplier", "Supplier"),
        new("supplier_lot", "Supplier's lot"),
        new("form", "Form", ColumnKind.Word) { Words = [.. Forms.Keys] },
        new("treated", "Treated", ColumnKind.Word) { Words = ["no", "yes"], Hint = "treated seed: gloves, and never food or feed; follow the label" },
        new("label_germination_percent", "Germination on the label, %", ColumnKind.Number),
        new("tested_on", "Tested on", ColumnKind.Day),
        new("seeds", "Seeds received", ColumnKind.Whole) { Hint = "in all; sowings are taken from it" },
        new("seeds_per_gram", "Seeds a gram", ColumnKind.Number),
    ]);

    public override Dictionary<string, SeedLot> Of(NurseryRows rows) => rows.Lots;

    public override SeedLot? Read(CsvRow line, NurseryRows rows, SeedLot? known)
    {
        if (line.Of("variety", rows.Varieties, "a variety") is not { } variety)
        {
            return null;
        }

        if (variety.RetiredOn is not null && (variety.Id != known?.VarietyId || known.RetiredOn is not null))
        {
            line.Fail("variety", $"a variety in use: {variety.Code} is retired");
        }

        var received = line.Whole("seeds", 1, 100_000_000);
        var before = known is null ? 0 : rows.Received[known.Code];
        var stock = (known?.StockSeeds ?? 0) + received - before;
        if (stock < 0)
        {
            line.Fail("seeds", $"{Cell.Of(before - (known?.StockSeeds ?? 0))} or more: so many are sown");
        }

        var lot = new SeedLot
        {
            Id = known?.Id ?? NewId.Of<SeedLot>(rows.Time),
            VarietyId = variety.Id,
            Code = line.Text("code", 40),
            Supplier = line.Text("supplier"),
            SupplierLot = line.Text("supplier_lot"),
            Form = line.Word("form", Forms),
            Treated = line.Word("treated", YesNo),
            LabelGermination = line.Number("label_germination_percent", 0.01m, 100) / 100,
            TestedOn = line.Day("tested_on"),
            SeedsPerGram = line.Number("seeds_per_gram", 0.0001m, 1_000_000),
            StockSeeds = stock,
            RetiredOn = known?.RetiredOn,
            Version = (known?.Version ?? 0) + 1,
        };
        rows.Received[lot.Code] = received;
        return lot;
    }

    protected override IReadOnlyDictionary<string, string> Fields(SeedLot row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["code"] = row.Code,
        ["variety"] = rows.Varieties.Values.First(variety => variety.Id == row.VarietyId).Code,
        ["supplier"] = row.Supplier,
        ["supplier_lot"] = row.SupplierLot,
        ["form"] = Cell.Of(row.Form, Forms),
        ["treated"] = Cell.Of(row.Treated, YesNo),
        ["label_germination_percent"] = Cell.Of(row.LabelGermination * 100),
        ["tested_on"] = Cell.Of(row.TestedOn),
        ["seeds"] = Cell.Of(rows.Received[row.Code]),
        ["seeds_per_gram"] = Cell.Of(row.SeedsPerGram),
    };

    protected override Guid IdOf(SeedLot row) => row.Id.Value;

    protected override int VersionOf(SeedLot row) => row.Version;

    protected override LocalDate? RetiredOn(SeedLot row) => row.RetiredOn;

    protected override void TakeBack(SeedLot row) => row.RetiredOn = null;

    protected override IEnumerable<SeedLot> Sorted(IEnumerable<SeedLot> all, NurseryRows rows) =>
        all.OrderBy(row => row.Code, StringComparer.Ordinal);

    protected override async Task CheckAsync(
        NurseryDbContext database, CsvRow line, SeedLot known, SeedLot read, NurseryRows rows, CancellationToken cancellation)
    {
        if (read.VarietyId != known.VarietyId && await database.Batches.AnyAsync(batch => batch.LotId == known.Id, cancellation))
        {
            line.Fail("variety", "the variety it has: there are batches of it");
        }
    }

    public override void Store(NurseryDbContext database, Staged staged, NurseryRows rows, Actor actor)
    {
        var read = (SeedLot)staged.Read;
        var more = read.StockSeeds - ((SeedLot?)staged.Known)?.StockSeeds ?? read.StockSeeds;
        base.Store(database, staged, rows, actor);
        if (more != 0)
        {
            database.Write(rows.Site, actor, rows.Time, new Receipt(more), lot: read.Id);
        }
    }

    public override Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        // Its receipt stands in the ledger, which never changes: so a lot is retired and never taken away.
        var lot = rows.Lots[key];
        lot.RetiredOn = rows.Site.Today(rows.Time);
        lot.Version++;
        return Task.FromResult(false);
    }
}
