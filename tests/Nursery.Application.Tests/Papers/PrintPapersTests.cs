using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Papers;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Papers;

public sealed class PrintPapersTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task TrayTags_BatchSown_OneATrayWithWhatItNeedsNext()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.PlanAsync(nursery.Lettuce, trays: 2, inDays: 5);
        await nursery.SowAsync(batch);

        var request = new TrayTagsRequest(batch.Code, Paper: TagPaper.Stakes);
        var text = PaperText.Of(await nursery.Get<PrintTrayTags>().HandleAsync(request, nursery.Staff));

        Assert.Equal(3, await nursery.Get<PrintTrayTags>().CountAsync(request, nursery.Staff));
        Assert.Equal(5, await nursery.Get<PrintTrayTags>().CountAsync(new TrayTagsRequest(), nursery.Staff));
        Assert.Equal(3, Count(text, batch.Code));
        Assert.Contains("tray3of3", text, StringComparison.Ordinal);
        Assert.Contains("sown2March2026", text, StringComparison.Ordinal);
        Assert.Equal(3, Count(text, "lot" + nursery.PepperLot.Code));

        // The watering due today is no news; the look for seedlings comes before the move off heat.
        Assert.Equal(3, Count(text, "next:checkforemergence"));
    }

    [Theory]
    [InlineData(0, 3)]
    [InlineData(5, 2)]
    [InlineData(6, 0)]
    public async Task TrayTags_SowingDay_OnlyWhatIsSownThen(int inDays, int tags)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.PlanAsync(nursery.Lettuce, trays: 2, inDays: 5);

        Assert.Equal(tags, await nursery.Get<PrintTrayTags>().CountAsync(new TrayTagsRequest(SowOn: nursery.Today.PlusDays(inDays)), nursery.Staff));
    }

    [Fact]
    public async Task TrayTags_OfAHouse_OnlyWhatStandsOrIsPlannedThereToday()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var here = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.PlanAsync(nursery.Lettuce, trays: 2);
        await nursery.ReserveAsync(here, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));

        Assert.Equal(3, await nursery.Get<PrintTrayTags>().CountAsync(new TrayTagsRequest(House: "H1"), nursery.Staff));
        Assert.Equal(0, await nursery.Get<PrintTrayTags>().CountAsync(new TrayTagsRequest(House: "H2"), nursery.Staff));
        await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<PrintTrayTags>().CountAsync(new TrayTagsRequest(House: "H9"), nursery.Staff));
    }

    [Fact]
    public async Task TrayTags_SharedTray_SaysWhichRowsAreWhose()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: 3);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 3);
        var shared = await nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower);

        var text = PaperText.Of(await nursery.Get<PrintTrayTags>().HandleAsync(new TrayTagsRequest(tomato.Code), nursery.Staff));

        Assert.Contains(shared.TraySetCode, text, StringComparison.Ordinal);
        Assert.Contains("tray1of1", text, StringComparison.Ordinal);
        Assert.Contains("cellrows1–4·" + pepper.Code, text, StringComparison.Ordinal);
        Assert.Contains("cellrows5–12·" + tomato.Code, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task MixSheet_TwoDays_SaysHowMuchOfWhatEachDayWithCautions()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using (var rows = await nursery.DatabaseAsync())
        {
            (await rows.Sites.SingleAsync(row => row.Id == nursery.At.Site.Id)).MixAmendments = "gypsum 600";
            await rows.SaveChangesAsync();
        }

        await nursery.PlanAsync(nursery.Pepper, trays: 3, cells: 72);
        await nursery.PlanAsync(nursery.Lettuce, trays: 2, cells: 128, inDays: 2);

        var text = PaperText.Of(await nursery.Get<PrintMixSheet>().HandleAsync(null, null, null, nursery.Staff));

        // 216 × 43 mL × 1.1 × 1.05 = 10.73 L, 0.4 cu ft, 6.4 g; 256 × 23 mL × 1.155 = 6.80 L, 0.2 cu ft, 4.1 g of gypsum.
        Assert.Contains("Mixsheet2March2026to8March2026·", text, StringComparison.Ordinal);
        Assert.Contains("11L", text, StringComparison.Ordinal);
        Assert.Contains("6.8L", text, StringComparison.Ordinal);
        Assert.Contains("gypsum", text, StringComparison.Ordinal);
        Assert.Contains("6.4g", text, StringComparison.Ordinal);
        Assert.Contains("4.1g", text, StringComparison.Ordinal);
        Assert.Contains("216cellsof43mL", text, StringComparison.Ordinal);
        Assert.Contains("Wednesday,4March2026", text, StringComparison.Ordinal);
        Assert.Contains("respirator", text, StringComparison.Ordinal);
        Assert.Contains("liftwiththelegs", text, StringComparison.Ordinal);
        Assert.Contains("followitslabel", text, StringComparison.Ordinal);
        Assert.Contains("localrules.", text, StringComparison.Ordinal);
        var none = PaperText.Of(await nursery.Get<PrintMixSheet>().HandleAsync(nursery.Today.PlusDays(70), null, SheetSize.A4, nursery.Staff));
        Assert.Contains("Nothingistobesowninthesedays.", none, StringComparison.Ordinal);
        await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<PrintMixSheet>().HandleAsync(nursery.Today, nursery.Today.PlusDays(-1), null, nursery.Staff));
    }

    [Fact]
    public async Task PickList_DeliveriesAndSubstitutes_EachDayItsPartAndWhatIsTakenInstead()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (first, second) = (nursery.Today.PlusDays(50), nursery.Today.PlusDays(60));
        await nursery.ImportAsync($"A-1,Terrace Growers,{nursery.Pepper.Code},200,{first:uuuu-MM-dd}");
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Manager)).Items.Single();
        await nursery.Get<ChangeOrderLine>().HandleAsync(
            new(line.Id, 1, [new(first, 80), new(second, 120)], [nursery.Tomato.Code, nursery.Lettuce.Code]), nursery.HeadGrower);
        var instead = await nursery.PlanAsync(nursery.Tomato);
        await nursery.SowAsync(instead);
        var look = await nursery.TaskAsync(instead.Id, Domain.Tasks.TaskKind.MoveOffHeat);
        await nursery.RecordAsync(new Application.Rounds.TaskDone(look.Id.Value));

        var early = PaperText.Of(await nursery.Get<PrintPickList>().HandleAsync(null, first, null, nursery.Staff));
        var both = PaperText.Of(await nursery.Get<PrintPickList>().HandleAsync("A-1", null, null, nursery.Staff));

        Assert.Contains("80plants", early, StringComparison.Ordinal);
        Assert.DoesNotContain("120plants", early, StringComparison.Ordinal);
        Assert.Contains("120plants", both, StringComparison.Ordinal);
        Assert.Equal(2, Count(both, "instead,onlyifshort:" + instead.Code));
        Assert.Contains("upto144plants", both, StringComparison.Ordinal);
        Assert.Equal(2, Count(both, "nonefreehere"));
    }

    [Fact]
    public async Task BenchTags_SownBatch_SayWhatItNeedsNext()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);

        var text = PaperText.Of(await nursery.Get<PrintBenchTags>().HandleAsync("H1", null, nursery.Staff));

        Assert.Contains(batch.Code, text, StringComparison.Ordinal);
        Assert.Contains("checkforemergence", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CarryList_TwoPlacesOneAfterTheOther_SaysFromWhereToWhereOnTheDay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4, inDays: 1);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today.PlusDays(1), nursery.Today.PlusDays(3));
        await nursery.ReserveAsync(batch, "W1", 9, nursery.Today.PlusDays(3), nursery.Today.PlusDays(30));

        var whole = PaperText.Of(await nursery.Get<PrintCarryList>().HandleAsync(null, 7, null, nursery.Staff));
        var first = PaperText.Of(await nursery.Get<PrintCarryList>().HandleAsync(null, 2, null, nursery.Staff));
        var none = PaperText.Of(await nursery.Get<PrintCarryList>().HandleAsync(nursery.Today.PlusDays(4), 7, null, nursery.Staff));

        Assert.Contains("Tuesday,3March2026", whole, StringComparison.Ordinal);
        Assert.Contains("Thursday,5March2026", whole, StringComparison.Ordinal);
        Assert.Contains("fromsowing", whole, StringComparison.Ordinal);
        Assert.Contains("House1,spaces9–12", whole, StringComparison.Ordinal);
        Assert.Equal(2, Count(whole, batch.Code));
        Assert.Equal(1, Count(first, batch.Code));
        Assert.Contains("Nothingistobecarried.", none, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CarryList_TraysStillWhereTheyShouldHaveLeft_AreLate()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(2));
        await nursery.ReserveAsync(batch, "W1", 9, nursery.Today.PlusDays(2), nursery.Today.PlusDays(30));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(5));

        var text = PaperText.Of(await nursery.Get<PrintCarryList>().HandleAsync(null, 1, null, nursery.Staff));

        Assert.Equal(1, Count(text, batch.Code));
        Assert.Contains("3dayslate", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PickList_OrderAndDay_SaysHowManyWhereAndWhatIsMissing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var ready = nursery.Today.PlusDays(60);
        await nursery.ImportAsync(
            $"A-1,Terrace Growers,{nursery.Pepper.Code},200,{ready:uuuu-MM-dd}", $"A-2,Terrace Growers,{nursery.Lettuce.Code},100,{ready:uuuu-MM-dd}");
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Manager)).Items.Single(row => row.Order == "A-1");
        var batch = await nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(nursery.Pepper.Code, nursery.PepperLot.Code, 2, 72, 1, nursery.Today, [new(line.Id, 120)]), nursery.HeadGrower);
        await nursery.ReserveAsync(batch, "G1", 3, nursery.Today, nursery.Today.PlusDays(10));

        var order = PaperText.Of(await nursery.Get<PrintPickList>().HandleAsync("A-1", null, null, nursery.Staff));
        var day = PaperText.Of(await nursery.Get<PrintPickList>().HandleAsync(null, ready, null, nursery.Staff));
        var other = PaperText.Of(await nursery.Get<PrintPickList>().HandleAsync(null, ready.PlusDays(1), null, nursery.Staff));

        Assert.Contains("OrderA-1·TerraceGrowers", order, StringComparison.Ordinal);
        Assert.Contains("200plants", order, StringComparison.Ordinal);
        Assert.Contains("120plants", order, StringComparison.Ordinal);
        Assert.Contains("80planthavenobatch", order.Replace("plantshave", "planthave", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("planned:House1·benchG1·spaces3–4", order, StringComparison.Ordinal);
        Assert.DoesNotContain("OrderA-2", order, StringComparison.Ordinal);
        Assert.Contains("OrderA-2", day, StringComparison.Ordinal);
        Assert.Contains("100planthavenobatch", day.Replace("plantshave", "planthave", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("Noorderwantsplantsthen.", other, StringComparison.Ordinal);
    }

    [Fact]
    public async Task BenchPlan_House_ShowsItsBenchesZonesAndTrays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));

        var text = PaperText.Of(await nursery.Get<PrintBenchPlan>().HandleAsync("H1", null, null, nursery.Staff));
        var later = PaperText.Of(await nursery.Get<PrintBenchPlan>().HandleAsync("H1", nursery.Today.PlusDays(20), null, nursery.Staff));

        Assert.Contains(batch.Code, text, StringComparison.Ordinal);
        Assert.Contains("Z8080°F", text, StringComparison.Ordinal);
        Assert.Contains("60of64spacesarefree", text, StringComparison.Ordinal);
        Assert.DoesNotContain(batch.Code, later, StringComparison.Ordinal);
    }

    private static int Count(string text, string part) => text.Split(part).Length - 1;
}
