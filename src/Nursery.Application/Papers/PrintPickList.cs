using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Printing.PickLists;

namespace Nursery.Application.Papers;

/// <summary>What to pick for one order, or for all orders of a day.</summary>
public sealed class PrintPickList(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No order of that number.</exception>
    public async Task<byte[]> HandleAsync(
        string? order, LocalDate? on, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var day = on ?? (order is null ? site.Today(time) : null);
        var wanted = await WantedPlants.LoadAsync(database, site.Id, order, day, cancellation);
        if (order is not null && wanted.Count == 0 && !await database.Orders.AnyAsync(row => row.SiteId == site.Id && row.Number == order, cancellation))
        {
            throw new InvalidFields("order", order, "the number of an order of this site");
        }

        var sources = await PickSources.LoadAsync(database, site.Id, site.Today(time), cancellation);
        return PickListDocument.Render(new PickListModel(
            site.Imprint(time),
            site.Sheet(paper),
            string.Join(" · ", new[] { order is null ? null : "order " + order, day is { } one ? PaperWords.WeekDay(one) : null }.OfType<string>()),
            [
                .. wanted.GroupBy(row => (row.Order, row.On)).Select(group => new PickOrder(
                    group.Key.Order, group.First().Customer, PaperWords.Day(group.Key.On), [.. group.Select(row => LineOf(row, sources))])),
            ]));
    }

    private static PickLine LineOf(WantedPlants wanted, PickSources sources)
    {
        var picks = sources.Of(wanted);
        var open = wanted.Plants - picks.Sum(pick => pick.Plants);
        return new PickLine(
            wanted.Subject,
            PaperWords.Count(wanted.Plants, "plant", "plants"),
            open > 0 ? PaperWords.Count(open, "plant has", "plants have") + " no batch" : null,
            [.. picks.Select(pick => PlaceOf(pick, instead: false)), .. sources.InsteadOf(wanted).SelectMany(Instead)]);
    }

    private static IEnumerable<PickPlace> Instead((string Name, IReadOnlyList<Pick> Picks) substitute) => substitute.Picks.Count > 0
        ? substitute.Picks.Select(pick => PlaceOf(pick, instead: true))
        : [new PickPlace("", substitute.Name, "", "", "none free here", null, Instead: true)];

    private static PickPlace PlaceOf(Pick pick, bool instead) => new(
        pick.Row.Batch.Code,
        $"{pick.Row.Crop.Name} ‘{pick.Row.Variety.Name}’",
        (instead ? "up to " : "") + PaperWords.Count(pick.Plants, "plant", "plants"),
        FormattableString.Invariant($"from {PaperWords.Trays(pick.Row.TraySet.Trays)} of {pick.Row.TraySet.CellsPerTray}")
            + (pick.Row.Share.Part(pick.Row.TraySet) is { } part ? ", " + part : ""),
        pick.Places.Count > 0 ? string.Join("; ", pick.Places.Select(place => (place.Standing ? "" : "planned: ") + place.Words)) : Gone(pick.Row.Batch),
        PaperWords.Pattern(pick.Row.Batch.State.Stage),
        instead);

    private static string Gone(Batch batch) => batch.State.Stage switch
    {
        BatchStage.HandedOver => "handed over",
        BatchStage.Discarded => "given up",
        _ => "stands nowhere yet",
    };
}
