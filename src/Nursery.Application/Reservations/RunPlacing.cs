using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Runs;

namespace Nursery.Application.Reservations;

/// <summary>The work of a placing run, a few tray sets a transaction: first-fit looks at one after the other, so parts of it
/// give the same places as all at once, and a stop or a dead server keeps the parts that are done.</summary>
public sealed class RunPlacing(
    IDbContextFactory<NurseryDbContext> databases, PlaceByFirstFit place, ILogger<RunPlacing> log, TimeProvider time)
{
    /// <summary>Few enough that the count moves and a stop is soon heard.</summary>
    private const int AtATime = 10;

    /// <summary>A job asks this, not a person: the run itself says in whose name.</summary>
    public Task HandleAsync(Guid id, CancellationToken cancellation = default)
    {
        var progress = new RunProgress(databases, new Id<BackgroundRun>(id), time);
        return progress.WorkAsync((_, actor) => PlaceAsync(progress, actor, cancellation), log, cancellation);
    }

    /// <returns>Whether all was looked at.</returns>
    private async Task<bool> PlaceAsync(RunProgress progress, Actor actor, CancellationToken cancellation)
    {
        var (placed, refused, done) = (new List<PlacedTraySet>(), new List<NotPlaced>(), 0);
        var waiting = await place.WaitingAsync(actor, cancellation);
        foreach (var some in waiting.Chunk(AtATime))
        {
            if (!await progress.ReportAsync(done, waiting.Count, some[0].BatchCode, new FirstFitReport(placed, refused), cancellation))
            {
                return false;
            }

            var report = await place.PlaceAsync([.. some.Select(row => row.TraySet)], actor, cancellation);
            placed.AddRange(report.Placed);
            refused.AddRange(report.NotPlaced);
            done += some.Length;
        }

        await progress.ReportAsync(done, waiting.Count, null, new FirstFitReport(placed, refused), cancellation);
        return true;
    }
}
