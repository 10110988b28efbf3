using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Runs;
using Nursery.Printing.TrayTags;

namespace Nursery.Application.Papers;

/// <summary>The work of a print of many tray tags, some pages at a time. What was drawn before a stop is thrown away: half a print is none.</summary>
public sealed class RunTags(IDbContextFactory<NurseryDbContext> databases, PrintTrayTags print, ILogger<RunTags> log, TimeProvider time)
{
    /// <summary>Few enough that the count moves and a stop is soon heard.</summary>
    private const int AtATime = 200;

    /// <summary>A job asks this, not a person: the run itself says in whose name.</summary>
    public Task HandleAsync(Guid id, CancellationToken cancellation = default)
    {
        var progress = new RunProgress(databases, new Id<BackgroundRun>(id), time);
        return progress.WorkAsync((run, actor) => PrintAsync(progress, run, actor, cancellation), log, cancellation);
    }

    /// <returns>Whether the print was made.</returns>
    private async Task<bool> PrintAsync(RunProgress progress, BackgroundRun run, Actor actor, CancellationToken cancellation)
    {
        var request = RunProgress.ResultOf<TrayTagsRequest>(run) ?? new TrayTagsRequest();
        var model = await print.ModelAsync(request, actor, cancellation);
        using var pages = new TrayTagsPrint(model);
        var told = 0;
        while (pages.DrawNext())
        {
            cancellation.ThrowIfCancellationRequested();
            if (pages.Drawn - told < AtATime)
            {
                continue;
            }

            told = pages.Drawn;
            if (!await progress.ReportAsync(told, model.Tags, null, request, cancellation))
            {
                return false;
            }
        }

        var pdf = pages.Save();
        if (!await progress.ReportAsync(model.Tags, model.Tags, null, request, cancellation))
        {
            return false;
        }

        await using var database = await databases.CreateDbContextAsync(cancellation);
        database.KeptPrints.Add(new KeptPrint
        {
            Id = run.Id,
            SiteId = run.SiteId,
            Pdf = pdf,
            Bytes = pdf.Length,
            KeptUntil = LiveRuns.Now(time) + KeptPrint.Keep,
        });
        await database.SaveChangesAsync(cancellation);
        return true;
    }
}
