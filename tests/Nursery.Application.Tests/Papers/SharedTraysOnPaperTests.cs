using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Germination;
using Nursery.Application.Orders;
using Nursery.Application.Papers;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Application.Tests.Papers;

/// <summary>Every paper of a nursery whose trays are shared, with usual names and with the longest the setup takes.</summary>
public sealed class SharedTraysOnPaperTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>100 characters.</summary>
    private static readonly string _longest = string.Concat(Enumerable.Repeat("Winterharte Riesengurke ", 5))[..100];

    private static readonly Dictionary<string, (PaperStock Stock, Func<Shared, Task<byte[]>> Print, Func<Shared, string[]> Says)> _papers = new()
    {
        ["tray tags, letter"] = (PaperStock.Letter, it => Tags(it, TagPaper.Letter), RowsOfCells),
        ["tray tags, A4"] = (PaperStock.A4, it => Tags(it, TagPaper.A4), RowsOfCells),
        ["tray tags, labels"] = (PaperStock.Labels, it => Tags(it, TagPaper.Labels), RowsOfCells),
        ["tray tags, stakes"] = (PaperStock.Stakes, it => Tags(it, TagPaper.Stakes), RowsOfCells),
        ["bench tags, letter"] = (PaperStock.Letter, it => BenchTags(it, PaperSize.Letter), it => ["cell rows 1–4", "cell rows 5–12", it.Pepper, it.Tomato]),
        ["bench tags, A4"] = (PaperStock.A4, it => BenchTags(it, PaperSize.A4), it => ["cell rows 1–4", "cell rows 5–12", it.Pepper, it.Tomato]),
        ["bench tags, roll"] = (PaperStock.Labels, it => BenchTags(it, PaperSize.Roll), it => [it.Pepper, "more"]),
        ["sowing sheet"] = (PaperStock.Letter, it => it.Nursery.Get<PrintSowingSheet>().HandleAsync(null, null, null, it.Nursery.Staff),
            it => ["24 cells of a shared tray of 72", "48 cells of a shared tray of 72", it.Pepper, it.Tomato]),
        ["round sheet"] = (PaperStock.Letter, it => it.Nursery.Get<PrintRoundSheet>().HandleAsync(null, null, null, it.Nursery.Staff), it => [it.Pepper, it.Tomato]),
        ["carry list"] = (PaperStock.Letter, it => it.Nursery.Get<PrintCarryList>().HandleAsync(null, 7, null, it.Nursery.Staff), it => [it.TraySet, "2 varieties, shared"]),
        ["pick list of an order"] = (PaperStock.Letter, it => it.Nursery.Get<PrintPickList>().HandleAsync("A-1", null, null, it.Nursery.Staff),
            it => ["Order A-1", it.Pepper, "cell rows 1–4", "20 plants"]),
        ["pick list of a day"] = (PaperStock.A4, it => it.Nursery.Get<PrintPickList>().HandleAsync(null, it.Nursery.Today.PlusDays(60), SheetSize.A4, it.Nursery.Staff),
            it => [it.Pepper, "cell rows 1–4"]),
        ["patch sheet"] = (PaperStock.Letter, it => it.Nursery.Get<PrintPatchSheet>().HandleAsync(null, null, it.Nursery.Staff), it => [it.Counted]),
        ["bench plan"] = (PaperStock.Letter, it => it.Nursery.Get<PrintBenchPlan>().HandleAsync(null, null, null, it.Nursery.Staff), it => [it.TraySet, "2 varieties"]),
        ["plan time line"] = (PaperStock.Letter, it => it.Nursery.Get<PrintPlanTimeLine>().HandleAsync(null, null, it.Nursery.Staff), it => [it.Pepper, it.Tomato, "they share its trays"]),
        ["germination"] = (PaperStock.Letter, it => it.Nursery.Get<PrintGermination>().HandleAsync(new(GerminationKey.Variety), null, null, it.Nursery.Manager),
            _ => ["41.7 %", "144"]),
    };

    public static TheoryData<string, bool> All
    {
        get
        {
            var rows = new TheoryData<string, bool>();
            foreach (var name in _papers.Keys)
            {
                rows.Add(name, false);
                rows.Add(name, true);
            }

            return rows;
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public async Task Paper_OfSharedTrays_ReadsBackWhole(string name, bool longest)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var it = await ShareAsync(nursery, longest);
        var (stock, print, says) = _papers[name];

        var pdf = await print(it);

        using var read = PaperReading.Holds(pdf, stock, longest ? _longest[..23] : nursery.At.Site.Name, "printed 10 March 2026");
        var letters = read.Letters;
        Assert.All(says(it), words => Assert.Contains(Readback.Squeeze(words), letters, StringComparison.Ordinal));
        Assert.Equal(longest, letters.Contains("Riesengurke", StringComparison.Ordinal));
    }

    private static string[] RowsOfCells(Shared it) => ["cell rows 1–4 · " + it.Pepper, "cell rows 5–12 · " + it.Tomato, it.TraySet, "tray 1 of 1"];

    private static Task<byte[]> Tags(Shared it, TagPaper paper) =>
        it.Nursery.Get<PrintTrayTags>().HandleAsync(new TrayTagsRequest(it.TraySet, Paper: paper), it.Nursery.Staff);

    private static Task<byte[]> BenchTags(Shared it, PaperSize paper) => it.Nursery.Get<PrintBenchTags>().HandleAsync(null, paper, it.Nursery.Staff);

    /// <summary>Lettuce counted a week after sowing; pepper for an order and tomato to be sown today in one tray.</summary>
    private static async Task<Shared> ShareAsync(TestNursery nursery, bool longest)
    {
        if (longest)
        {
            await NameAsync(nursery);
        }

        var counted = await nursery.PlanAsync(nursery.Lettuce);
        await nursery.ReserveAsync(counted, "G1", 11, nursery.Today, nursery.Today.PlusDays(20));
        await nursery.SowAsync(counted);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.RecordAsync(new PlantsCounted(counted.Id, CountWhat.Seedlings, 60, null, null, false));
        await nursery.ImportAsync($"A-1,{(longest ? _longest : "Terrace Growers")},{nursery.Pepper.Code},20,{nursery.Today.PlusDays(60):uuuu-MM-dd}");
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Manager)).Items.Single();
        var pepper = await nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(nursery.Pepper.Code, nursery.PepperLot.Code, 1, 72, 1, nursery.Today, [new(line.Id, 20)]), nursery.HeadGrower);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 1);
        var shared = await nursery.Get<ShareTrays>().HandleAsync(new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower);
        foreach (var (bench, first, from, to) in new[] { ("G1", 1, 0, 3), ("W1", 9, 3, 30) })
        {
            await nursery.Get<ReserveSpaces>().HandleAsync(
                new ReserveSpacesRequest(shared.TraySetCode, bench, 1, first, nursery.Today.PlusDays(from), nursery.Today.PlusDays(to)), nursery.HeadGrower);
        }

        return new Shared(nursery, pepper.Code, tomato.Code, shared.TraySetCode, counted.Code);
    }

    private static async Task NameAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        var head = _longest[..92];
        var (site, varieties) = (nursery.At.Site.Id, new[] { nursery.Pepper.Id, nursery.Lettuce.Id, nursery.Tomato.Id });
        await rows.Sites.Where(row => row.Id == site).ExecuteUpdateAsync(set => set.SetProperty(row => row.Name, _longest));
        await rows.Houses.Where(row => row.SiteId == site).ExecuteUpdateAsync(set => set.SetProperty(row => row.Name, row => head + row.Code));
        await rows.Benches.Where(row => row.SiteId == site).ExecuteUpdateAsync(set => set.SetProperty(row => row.Name, row => head + row.Code));
        await rows.Varieties.Where(row => varieties.Contains(row.Id)).ExecuteUpdateAsync(set => set.SetProperty(row => row.Name, row => head + row.Code));
    }

    private sealed record Shared(TestNursery Nursery, string Pepper, string Tomato, string TraySet, string Counted);
}
