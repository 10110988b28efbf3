using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Papers;
using Nursery.Application.Rounds;
using Nursery.Data.People;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Papers;

public sealed class RoundSheetTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Print_SameListAgain_KeepsItsNumberAndAnotherListGetsTheNext()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper);

        var first = await PrintAsync(nursery);
        var again = await PrintAsync(nursery);
        await nursery.PlanAsync(nursery.Lettuce);
        var other = await PrintAsync(nursery);

        Assert.Contains("sheet1", first, StringComparison.Ordinal);
        Assert.Contains("sheet1", again, StringComparison.Ordinal);
        Assert.Contains("sheet2", other, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Print_TwoAtOnce_GiveOneNumberToOneList()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper);

        var printed = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => PrintAsync(nursery)));

        Assert.All(printed, text => Assert.Contains("sheet1", text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Enter_DayMovedOn_LinesStillMeanWhatThePaperSays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var pepper = await nursery.PlanAsync(nursery.Pepper);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce);
        var paper = await PrintAsync(nursery);
        var sheet = await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff);

        // Someone else sows the first on a tablet meanwhile, and more work comes up before it.
        await nursery.SowAsync(pepper);
        await nursery.PlanAsync(nursery.Tomato);
        var line = sheet.Lines.Single(row => row.Code == lettuce.Code);
        var result = Assert.Single(await EnterAsync(nursery, 1, null, new FilledLine(nursery.NewEntryId(), line.Line)));

        Assert.True(result.Outcome == EntryOutcome.Applied, result.Problem?.Message);
        Assert.Contains(lettuce.Code, paper, StringComparison.Ordinal);
        Assert.Equal(nursery.Today, (await nursery.StateAsync(lettuce.Id)).SownOn);
        var now = await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff);
        Assert.All(now.Lines, row => Assert.Equal(TaskState.Done, row.State));
    }

    [Fact]
    public async Task Enter_CountAndReason_AreTheEntriesATabletSends()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var counted = await nursery.PlanAsync(nursery.Pepper);
        var waiting = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(counted);
        await nursery.SowAsync(waiting);
        nursery.Clock.Advance(TimeSpan.FromDays(12));
        await nursery.Get<Application.Tasks.RaiseTasks>().HandleAsync();
        await PrintAsync(nursery);
        var sheet = await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff);
        var look = PaperLine(sheet, counted.Code, "Check for emergence");
        var later = PaperLine(sheet, waiting.Code, "Check for emergence");

        var results = await EnterAsync(
            nursery, 1, null,
            new FilledLine(nursery.NewEntryId(), look, Seedlings: 60, Cells: 72),
            new FilledLine(nursery.NewEntryId(), later, NotYet: "not up yet"));

        Assert.All(results, result => Assert.True(result.Outcome == EntryOutcome.Applied, result.Problem?.Message));
        Assert.Equal(60m / 72, (await nursery.StateAsync(counted.Id)).EmergedFraction!.Value, 3);
        var now = await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff);
        Assert.Equal(TaskState.Done, now.Lines[look - 1].State);
        Assert.Equal(TaskState.Open, now.Lines[later - 1].State);
    }

    [Fact]
    public async Task Enter_ForSomeoneElse_SaysWhoDidItWhenAndWhoTyped()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var walker = await AddPersonAsync(nursery, "Orla Finch", Role.Staff);
        await AddPersonAsync(nursery, "Sam Reed", Role.Manager);
        await PrintAsync(nursery);
        var id = nursery.NewEntryId();

        var sheet = await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff);
        await EnterAsync(nursery, 1, walker, new FilledLine(id, PaperLine(sheet, batch.Code, "Sow")));

        Assert.Equal(["Orla Finch"], sheet.People.Select(person => person.Name));
        await using var rows = await nursery.DatabaseAsync();
        var entry = await rows.Ledger.SingleAsync(row => row.Id == new Domain.Id<LedgerEntry>(id));
        Assert.Equal((walker, "Orla Finch"), (entry.WhoId, entry.WhoName));
        Assert.Equal($"round sheet 1, typed by {nursery.Staff.Name}", entry.Device);
        Assert.Equal(Instant.FromUtc(2026, 3, 2, 13, 30), entry.HappenedAt);
    }

    [Fact]
    public async Task Enter_SentTwice_IsStoredOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await PrintAsync(nursery);
        var line = new FilledLine(nursery.NewEntryId(), PaperLine(await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff), batch.Code, "Sow"));

        var first = await EnterAsync(nursery, 1, null, line);
        var entries = await nursery.LedgerCountAsync();
        var second = await EnterAsync(nursery, 1, null, line);

        Assert.Equal(EntryOutcome.Applied, Assert.Single(first).Outcome);
        Assert.Equal(EntryOutcome.Repeated, Assert.Single(second).Outcome);
        Assert.Equal(entries, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task Enter_LineOrPersonThatIsNone_IsRefusedAndNothingIsStored()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper);
        await PrintAsync(nursery);
        var entries = await nursery.LedgerCountAsync();

        await Assert.ThrowsAsync<NotFound>(() => EnterAsync(nursery, 2, null, new FilledLine(nursery.NewEntryId(), 1)));
        var line = await Assert.ThrowsAsync<InvalidFields>(() => EnterAsync(
            nursery, 1, null, new FilledLine(nursery.NewEntryId(), 1), new FilledLine(nursery.NewEntryId(), 99)));
        await Assert.ThrowsAsync<InvalidFields>(() => EnterAsync(nursery, 1, Guid.NewGuid(), new FilledLine(nursery.NewEntryId(), 1)));

        Assert.Equal("line", Assert.Single(line.Errors).Field);
        Assert.Equal(entries, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task Show_OtherSitesNumber_IsNotFound()
    {
        await using var ours = await TestNursery.OpenAsync(database);
        await using var theirs = await TestNursery.OpenAsync(database);
        await ours.PlanAsync(ours.Pepper);
        await PrintAsync(ours);

        await Assert.ThrowsAsync<NotFound>(() => theirs.Get<ShowRoundSheet>().HandleAsync(1, theirs.Staff));
    }

    private static int PaperLine(EnterableSheet sheet, string code, string task) =>
        sheet.Lines.Single(line => line.Code == code && line.Task == task).Line;

    private static async Task<string> PrintAsync(TestNursery nursery) =>
        PaperText.Of(await nursery.Get<PrintRoundSheet>().HandleAsync(null, null, null, nursery.Staff));

    /// <summary>At half past seven in the morning on the site's clock.</summary>
    private static Task<IReadOnlyList<LineResult>> EnterAsync(TestNursery nursery, int sheet, Guid? who, params FilledLine[] lines) =>
        nursery.Get<EnterRoundSheet>().HandleAsync(new FilledSheet(sheet, who, nursery.Today.At(new LocalTime(7, 30)), lines), nursery.Staff);

    private static async Task<Guid> AddPersonAsync(TestNursery nursery, string name, Role role)
    {
        var id = Guid.NewGuid();
        await using var rows = await nursery.DatabaseAsync();
        rows.Add(new Person { Id = id, UserName = id.ToString(), DisplayName = name });
        rows.Add(new PersonSite { PersonId = id, SiteId = nursery.At.Site.Id, Role = role });
        await rows.SaveChangesAsync();
        return id;
    }
}
