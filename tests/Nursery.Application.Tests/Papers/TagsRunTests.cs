using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Application.Papers;
using Nursery.Application.Runs;
using Nursery.Application.Tests.Reservations;
using Nursery.Data;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using UglyToad.PdfPig;
using Xunit;

namespace Nursery.Application.Tests.Papers;

public sealed class TagsRunTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>The run makes one context to take the run and one a report; the third is the report after 400 tags.</summary>
    private const int SecondReport = 3;

    [Fact]
    public async Task Run_MoreThanOneAnswerGives_KeepsThePdfForADay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 320, inDays: 1);
        var request = new TrayTagsRequest(Paper: TagPaper.Letter);
        var refusal = await Assert.ThrowsAsync<TooManyTags>(() => nursery.Get<PrintTrayTags>().HandleAsync(request, nursery.Staff));
        Assert.Contains("320 tags; one answer gives at most 300", refusal.Message, StringComparison.Ordinal);
        var before = await nursery.LedgerCountAsync();

        var run = await nursery.Get<StartTagsRun>().HandleAsync(request, nursery.Staff);
        Assert.Equal((RunState.Queued, 0, 320, nursery.Staff.Name), (run.State, run.Done, run.Total, run.StartedBy));
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<FetchKeptPrint>().HandleAsync(run.Id, nursery.Staff));
        await nursery.Get<RunTags>().HandleAsync(run.Id);

        var seen = Assert.Single(await nursery.Get<ShowTagsRuns>().HandleAsync(nursery.Manager));
        var pdf = await nursery.Get<FetchKeptPrint>().HandleAsync(run.Id, nursery.Manager);
        Assert.Equal((RunState.Done, 320, pdf.Length, request), (seen.State, seen.Done, seen.Bytes, seen.Request));
        Assert.Equal(seen.EndedAt + KeptPrint.Keep, seen.KeptUntil);
        using (var read = PdfDocument.Open(pdf))
        {
            Assert.Equal(32, read.NumberOfPages);
        }

        Assert.Contains("tray320of320", PaperText.Of(pdf), StringComparison.Ordinal);
        Assert.Equal(before, await nursery.LedgerCountAsync());

        nursery.Clock.Advance(TimeSpan.FromHours(23));
        await nursery.Get<ForgetPrints>().HandleAsync();
        Assert.Equal(pdf, await nursery.Get<FetchKeptPrint>().HandleAsync(run.Id, nursery.Staff));
        nursery.Clock.Advance(TimeSpan.FromHours(1));
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<FetchKeptPrint>().HandleAsync(run.Id, nursery.Staff));
        await nursery.Get<ForgetPrints>().HandleAsync();
        await using var rows = await nursery.DatabaseAsync();
        Assert.False(await rows.KeptPrints.AnyAsync(print => print.SiteId == nursery.At.Site.Id));
        Assert.Equal((RunState.Done, null), await StateAsync(nursery, run.Id));
    }

    [Fact]
    public async Task Preview_ManyTags_DrawsTheFirstPagesOfTheWhole()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 320, inDays: 1);

        var (pdf, tags) = await nursery.Get<PrintTrayTags>().PreviewAsync(new TrayTagsRequest(Paper: TagPaper.A4), nursery.Staff);

        Assert.Equal(320, tags);
        using var read = PdfDocument.Open(pdf);
        Assert.Equal(30, read.NumberOfPages);
        Assert.Contains("Page1of32", PaperText.Of(pdf), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stop_MidWay_KeepsNothingAndLetsTheNextBegin()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 900, inDays: 1);
        var run = await nursery.Get<StartTagsRun>().HandleAsync(new TrayTagsRequest(), nursery.Staff);
        var refusal = await Assert.ThrowsAsync<RunUnderWay>(() => nursery.Get<StartTagsRun>().HandleAsync(new TrayTagsRequest(), nursery.Manager));
        Assert.Contains("0 of 900", refusal.Message, StringComparison.Ordinal);

        await Run(nursery, async made =>
        {
            if (made == SecondReport)
            {
                await nursery.Get<StopRun>().HandleAsync(run.Id, RunKind.TrayTags, nursery.Manager);
            }
        }).HandleAsync(run.Id);

        var seen = await nursery.Get<ShowTagsRuns>().HandleAsync(run.Id, nursery.Staff);
        Assert.Equal((RunState.Stopped, 400, true), (seen.State, seen.Done, seen.StopRequested));
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<FetchKeptPrint>().HandleAsync(run.Id, nursery.Staff));
        await nursery.Get<StartTagsRun>().HandleAsync(new TrayTagsRequest(), nursery.Manager);
    }

    [Fact]
    public async Task Run_PrinterBreaks_SaysSoAndKeepsNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 500, inDays: 1);
        var run = await nursery.Get<StartTagsRun>().HandleAsync(new TrayTagsRequest(), nursery.Staff);

        await Run(nursery, made => made == SecondReport ? throw new IOException("torn cable") : Task.CompletedTask).HandleAsync(run.Id);

        var seen = await nursery.Get<ShowTagsRuns>().HandleAsync(run.Id, nursery.Staff);
        Assert.Equal((RunState.Failed, "Something went wrong in the program; its log says what"), (seen.State, seen.Message));
    }

    [Fact]
    public async Task Show_RunOfAnotherSiteOrKind_IsNotFound()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var other = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 1);
        var run = await nursery.Get<StartTagsRun>().HandleAsync(new TrayTagsRequest(), nursery.Staff);
        await nursery.Get<RunTags>().HandleAsync(run.Id);

        await Assert.ThrowsAsync<NotFound>(() => other.Get<ShowTagsRuns>().HandleAsync(run.Id, other.Administrator));
        await Assert.ThrowsAsync<NotFound>(() => other.Get<FetchKeptPrint>().HandleAsync(run.Id, other.Administrator));
        Assert.Empty(await other.Get<ShowTagsRuns>().HandleAsync(other.Administrator));
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<StopRun>().HandleAsync(run.Id, RunKind.FirstFit, nursery.HeadGrower));
        await Assert.ThrowsAsync<NotAllowed>(() => nursery.Get<StopRun>().HandleAsync(run.Id, RunKind.FirstFit, nursery.Staff));
    }

    private static async Task<(RunState, int?)> StateAsync(TestNursery nursery, Guid id)
    {
        var seen = await nursery.Get<ShowTagsRuns>().HandleAsync(id, nursery.Staff);
        return (seen.State, seen.Bytes);
    }

    private static RunTags Run(TestNursery nursery, Func<int, Task> before) => new(
        new CountedContexts(nursery.Get<IDbContextFactory<NurseryDbContext>>(), before),
        nursery.Get<PrintTrayTags>(), NullLogger<RunTags>.Instance, nursery.Clock);
}
