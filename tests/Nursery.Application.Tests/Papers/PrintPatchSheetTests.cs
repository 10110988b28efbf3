using Nursery.Application.Batches;
using Nursery.Application.Papers;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Papers;

public sealed class PrintPatchSheetTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const string Nothing = "No batch has blanks that its own seedlings could fill";

    /// <summary>Sixty and ten plants of 72: ten moves, and one of two trays goes.</summary>
    [Fact]
    public async Task Sheet_TraysCountedOneByOne_EmptiesThePoorest()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery, trays: 2, seeds: 1);
        await CountAsync(nursery, batch, 1, CountWhat.CellsUp, 60);
        await CountAsync(nursery, batch, 2, CountWhat.Blanks, 62);

        var text = await TextAsync(nursery, batch.Code);

        Says(text, "10 moves, about 2 minutes (10 s each, from memory); then 70 plants in 1 tray, 1 tray space freed.");
        Says(text, "tray 2");
        Says(text, "tray 2 is empty: clear it");
        Assert.DoesNotContain(PaperText.Squeeze("taken as even"), text, StringComparison.Ordinal);
    }

    /// <summary>Two seeds a cell, 144 seeds: 66 cells up and 100 seedlings counted the same day leave 34 to spare for six blanks.</summary>
    [Fact]
    public async Task Sheet_CellsAndSeedlingsOfOneDay_KnowTheSpares()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery, trays: 1, seeds: 2);
        await CountAsync(nursery, batch, 1, CountWhat.CellsUp, 66);
        await CountAsync(nursery, batch, 1, CountWhat.Seedlings, 100);

        var text = await TextAsync(nursery, null);

        Says(text, "6 moves, about 1 minute (10 s each, from memory); then 72 plants in 1 tray.");
        Says(text, "blanks of the same tray");
        Assert.DoesNotContain(PaperText.Squeeze("reckoned"), text, StringComparison.Ordinal);

        // Thinned, there is nothing to lift.
        await nursery.RecordAsync(new WorkDone(TaskKind.Thin, batch.Id, null, null));
        Says(await TextAsync(nursery, null), Nothing);
    }

    [Fact]
    public async Task Sheet_AllTraysCountedTogether_IsTakenAsEven_AndSaysSo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery, trays: 4, seeds: 1);
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, 216, null, null, false));

        // 54 in each: 54 moves free one, which is more than half a tray of work; so nothing is proposed.
        Says(await TextAsync(nursery, batch.Code), Nothing);

        nursery.Clock.Advance(TimeSpan.FromMinutes(1));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, 100, null, null, false));
        var text = await TextAsync(nursery, batch.Code);
        Says(text, "then 100 plants in 2 trays, 2 tray spaces freed.");
        Says(text, "Not counted tray by tray: taken as even.");
    }

    [Fact]
    public async Task Sheet_OrderHasEnough_PatchesNothing_AndAnUnknownCodeIsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery, trays: 1, seeds: 2, ordered: 40);
        await CountAsync(nursery, batch, 1, CountWhat.CellsUp, 60);

        Says(await TextAsync(nursery, batch.Code), Nothing);
        await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<PrintPatchSheet>().HandleAsync("no", null, nursery.Staff));
    }

    /// <summary>A count taken back says nothing, and trays thrown away are not moved from.</summary>
    [Fact]
    public async Task Sheet_UndoneCountsAndDiscardedTrays_AreLeftOut()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery, trays: 3, seeds: 1);
        await CountAsync(nursery, batch, 1, CountWhat.CellsUp, 50);
        await CountAsync(nursery, batch, 2, CountWhat.CellsUp, 12);
        var third = await CountAsync(nursery, batch, 3, CountWhat.CellsUp, 8);
        Says(await TextAsync(nursery, batch.Code), "20 moves");

        await nursery.Get<DiscardTrays>().HandleAsync(new DiscardTraysRequest(nursery.NewEntryId(), batch.Id, new(2, 1), "mice"), nursery.HeadGrower);
        Says(await TextAsync(nursery, batch.Code), "8 moves");
        await nursery.RecordAsync(new EntryUndone(third));
        Says(await TextAsync(nursery, batch.Code), Nothing);
    }

    private static async Task<PlannedBatch> SownAsync(TestNursery nursery, int trays, int seeds, int? ordered = null)
    {
        var batch = ordered is { } plants
            ? await Forecasts.ForecastNursery.SownForOrderAsync(nursery, plants, 90, trays, seeds)
            : await nursery.PlanAsync(nursery.Pepper, trays, seeds: seeds);
        if (ordered is null)
        {
            await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(20));
            await nursery.SowAsync(batch);
        }

        nursery.Clock.Advance(TimeSpan.FromDays(14));
        return batch;
    }

    private static Task<Guid> CountAsync(TestNursery nursery, PlannedBatch batch, int tray, CountWhat what, int value)
    {
        nursery.Clock.Advance(TimeSpan.FromMinutes(1));
        return nursery.RecordAsync(new PlantsCounted(batch.Id, what, value, new TrayChoice(null, [tray]), null, false));
    }

    private static async Task<string> TextAsync(TestNursery nursery, string? code) =>
        PaperText.Of(await nursery.Get<PrintPatchSheet>().HandleAsync(code, null, nursery.Staff));

    private static void Says(string text, string words) => Assert.Contains(PaperText.Squeeze(words), text, StringComparison.Ordinal);
}
