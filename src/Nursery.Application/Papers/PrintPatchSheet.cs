using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy.Patching;
using Nursery.Application.Patching;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Printing.PatchSheets;

namespace Nursery.Application.Papers;

/// <summary>Which seedlings to move so that trays are full and others go, with the fewest moves.</summary>
public sealed class PrintPatchSheet(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="code">Of a batch; null for every batch with something to patch or merge.</param>
    /// <param name="paper">Letter or A4; null for the site's.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No batch of that code.</exception>
    public async Task<byte[]> HandleAsync(string? code, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        if (code is not null && !await database.Batches.AnyAsync(batch => batch.SiteId == site.Id && batch.Code == code, cancellation))
        {
            throw new InvalidFields("code", code, "the code of a batch");
        }

        var today = site.Today(time);
        var batches = await PatchableBatches.LoadAsync(database, site, code, cancellation);
        var places = await TrayPlaces.LoadAsync(database, site.Id, today, cancellation);
        return PatchSheetDocument.Render(new PatchSheetModel(
            site.Imprint(time),
            site.Sheet(paper),
            PaperWords.WeekDay(today),
            [
                .. batches.Select(batch => new PatchBatch(
                    batch.Row.Batch.Code,
                    $"{batch.Row.Crop.Name} ‘{batch.Row.Variety.Name}’",
                    places[batch.Row.TraySet.Id].FirstOrDefault()?.Words ?? "place not said",
                    Sum(batch),
                    Note(batch),
                    [.. batch.Chosen.Moves.Select(move => LineOf(move, batch.Chosen))])),
            ]));
    }

    private static PatchLine LineOf(PatchMove move, PatchPlan plan) => new(
        Tray(move.From),
        move.Seedlings.ToString(CultureInfo.InvariantCulture),
        move.From == move.To ? "blanks of the same tray" : Tray(move.To),
        plan.Emptied.Contains(move.From) && plan.Moves.Last(other => other.From == move.From) == move ? $"{Tray(move.From)} is empty: clear it" : null);

    private static string Sum(PatchableBatch batch)
    {
        var plan = batch.Chosen;
        var freed = batch.SpacesFreed(plan);
        var others = batch.Plans.Where(other => other != plan)
            .Select(other => $"{PaperWords.Count(other.Emptied.Count, "tray", "trays")} free: {PaperWords.Count(other.Seedlings, "move", "moves")}").Take(3).ToList();
        return $"{PaperWords.Count(plan.Seedlings, "move", "moves")}, about {PaperWords.Count((int)Math.Ceiling(plan.Minutes), "minute", "minutes")} (10 s each, from memory); "
            + $"then {PaperWords.Count(plan.Plants, "plant", "plants")} in {PaperWords.Trays(batch.Counted.Trays.Count - plan.Emptied.Count)}"
            + (freed > 0 ? $", {PaperWords.Count(freed, "tray space", "tray spaces")} freed." : ".")
            + (others.Count > 0 ? $" Else {string.Join("; ", others)}." : "");
    }

    private static string? Note(PatchableBatch batch) => batch.Counted switch
    {
        { IsEven: true } => "Not counted tray by tray: taken as even. Count each tray to know better.",
        { IsGuessed: true } => "Seedlings to spare are reckoned from the seeds a cell.",
        _ => null,
    };

    private static string Tray(int number) => string.Create(CultureInfo.InvariantCulture, $"tray {number}");
}
