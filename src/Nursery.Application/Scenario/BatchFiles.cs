using Nursery.Domain;

namespace Nursery.Application.Scenario;

/// <summary>Batches with what they hold and what happened to them, as their files tell it.</summary>
internal static class BatchFiles
{
    public static async Task<IReadOnlyList<BatchRow>> ReadAsync(
        ScenarioFolder folder, SiteFiles site, CropFiles crops, CancellationToken cancellation)
    {
        var batches = await BatchesAsync(folder, crops, cancellation);
        await ReservationsAsync(folder, site, batches, cancellation);
        await LedgerAsync(folder, site, batches, cancellation);
        return batches;
    }

    private static async Task<List<BatchRow>> BatchesAsync(ScenarioFolder folder, CropFiles crops, CancellationToken cancellation)
    {
        var batches = new List<BatchRow>();
        var rows = await folder.ReadAsync(
            "batches.csv", "variety,lot,trays,cells_per_tray,seeds_per_cell,sow_on,sown,bench,first_space,orders", cancellation);
        foreach (var row in rows)
        {
            var variety = row.Of("variety", crops.Varieties, "a variety");
            var lot = row.Of("lot", crops.Lots, "a seed lot");
            if (variety is null || lot is null)
            {
                continue;
            }

            if (lot.VarietyId != variety.Id)
            {
                row.Fail("lot", $"a seed lot of {variety.Code}");
            }

            var batch = new BatchRow(
                row,
                variety,
                lot,
                row.Whole("trays", 1, 10_000),
                row.Whole("cells_per_tray", 1, 512),
                row.Whole("seeds_per_cell", 1, 50),
                row.Day("sow_on"),
                row.Word("sown", CropFiles.YesNo),
                row.Text("orders", 1000).Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));
            if (batch.Sown && batch.SowOn > folder.LoadDay)
            {
                row.Fail("sow_on", "the load day or earlier, when it is sown");
            }

            batches.Add(batch);
        }

        folder.Done();
        return batches;
    }

    private static async Task ReservationsAsync(
        ScenarioFolder folder, SiteFiles site, List<BatchRow> batches, CancellationToken cancellation)
    {
        var all = new List<ReservationRow>();
        foreach (var row in await folder.ReadAsync("reservations.csv", "batch_row,bench,first_space,spaces,from,to", cancellation))
        {
            if (row.Of("bench", site.Benches, "a bench") is not { } bench)
            {
                continue;
            }

            var batch = batches[row.Whole("batch_row", 1, batches.Count) - 1];
            var run = new SpaceRun(row.Whole("first_space", 1, bench.Capacity), row.Whole("spaces", 1, bench.Capacity));
            var reservation = new ReservationRow(bench, run, row.Day("from"), row.Day("to"));
            if (run.Count != batch.Trays || run.Last > bench.Capacity)
            {
                row.Fail("spaces", $"{batch.Trays}, the batch's trays, in a run that ends on bench {bench.Code} (space {bench.Capacity})");
            }

            if (reservation.To <= reservation.From)
            {
                row.Fail("to", "after from");
            }
            else if (all.Exists(reservation.Overlaps))
            {
                row.Fail("first_space", $"spaces of bench {bench.Code} that no other reservation holds on those days");
            }

            all.Add(reservation);
            batch.Reservations.Add(reservation);
        }

        foreach (var batch in batches)
        {
            CheckPlace(batch);
        }

        folder.Done();
    }

    /// <summary>The bench of batches.csv is where the first of its reservations is.</summary>
    private static void CheckPlace(BatchRow batch)
    {
        var first = batch.Reservations.MinBy(reservation => reservation.From);
        var space = batch.Row.WholeOrEmpty("first_space", 1, 10_000);
        if (batch.Row.IsEmpty("bench") ? first is not null : first is null || batch.Row.Text("bench") != first.Bench.Code)
        {
            batch.Row.Fail("bench", first is null ? "empty: reservations.csv has no place for it" : $"{first.Bench.Code}, as in reservations.csv");
        }
        else if (space != first?.Spaces.First)
        {
            batch.Row.Fail("first_space", first is null ? "empty, as bench is" : $"{first.Spaces.First}, as in reservations.csv");
        }
    }

    private static async Task LedgerAsync(
        ScenarioFolder folder, SiteFiles site, List<BatchRow> batches, CancellationToken cancellation)
    {
        foreach (var row in await folder.ReadAsync("ledger.csv", "batch_row,on,time,who,kind,what,value,trays,sample", cancellation))
        {
            if (row.Of("who", site.People, "a person") is not { } who)
            {
                continue;
            }

            var batch = batches[row.Whole("batch_row", 1, batches.Count) - 1];
            var kind = row.Word("kind", new Dictionary<string, LedgerRowKind>
            {
                ["count"] = LedgerRowKind.Count,
                ["moveOffHeat"] = LedgerRowKind.MoveOffHeat,
                ["thin"] = LedgerRowKind.Thin,
                ["surface"] = LedgerRowKind.Surface,
                ["loss"] = LedgerRowKind.Loss,
            });
            var entry = new LedgerRow(
                row, row.Day("on"), row.Time("time"), who, kind, What(row, kind), Value(row, kind, batch),
                kind == LedgerRowKind.Count ? row.WholeOrEmpty("trays", 1, batch.Trays) : null,
                kind == LedgerRowKind.Count && row.Word("sample", CropFiles.YesNo));
            if (!batch.Sown)
            {
                row.Fail("batch_row", "a batch that is sown");
            }

            if (entry.On < batch.SowOn || entry.On > folder.LoadDay)
            {
                row.Fail("on", "from the batch's sowing day to the load day");
            }

            batch.Ledger.Add(entry);
        }

        folder.Done();
    }

    private static string What(CsvRow row, LedgerRowKind kind)
    {
        switch (kind)
        {
            case LedgerRowKind.Count:
                row.Word("what", LedgerRow.Counted);
                return row.Text("what");
            case LedgerRowKind.Surface:
                row.Word("what", LedgerRow.Surfaces);
                return row.Text("what");
            case LedgerRowKind.Loss:
                return row.Text("what");
            case LedgerRowKind.MoveOffHeat:
            case LedgerRowKind.Thin:
            default:
                return "";
        }
    }

    private static int Value(CsvRow row, LedgerRowKind kind, BatchRow batch)
    {
        var cells = batch.Trays * batch.CellsPerTray;
        return kind switch
        {
            LedgerRowKind.Count => row.Whole("value", 0, cells * batch.SeedsPerCell),
            LedgerRowKind.Loss => row.Whole("value", 1, cells * batch.SeedsPerCell),
            _ => 0,
        };
    }
}
