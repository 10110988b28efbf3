using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Batches;

/// <summary>A planned batch that might share trays: what it needs, when it leaves the heat and at which temperatures it germinates.</summary>
/// <param name="Chosen">Whether it is one of those asked about.</param>
/// <param name="SameBand">Its crop germinates at the very same temperatures.</param>
/// <param name="WhyNot">Why it does not suit the chosen ones; null when it does.</param>
public sealed record TrayPartner(
    Guid BatchId, string BatchCode, int Version, string CropName, string VarietyName, int CellsPerTray, int CellsPlanned, int CellsNeeded,
    LocalDate SowOn, LocalDate MoveOffOn, decimal MinC, decimal MaxC, bool Chosen, bool SameBand, Refusal? WhyNot);

/// <summary>Batches that could share trays with chosen ones: the same heat band and move-off day first, those that do not suit last.
/// Without a chosen one every batch that shares with none.</summary>
public sealed class ListTrayPartners(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">One of the chosen is no planned batch of this site with trays of its own.</exception>
    public async Task<IReadOnlyList<TrayPartner>> HandleAsync(
        IReadOnlyList<Guid> chosen, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var rows = await database.SharersAsync(site, site.Today(time), cancellation);
        var byId = rows.ToDictionary(row => row.Row.Batch.Id.Value);
        var together = chosen.Distinct()
            .Select(id => byId.TryGetValue(id, out var row) ? row.Sharer : throw new NotFound("planned batch with trays of its own", "id", id.ToString()))
            .ToList();
        return
        [
            .. rows.Select(row => PartnerOf(row, chosen, together))
                .OrderByDescending(partner => partner.Chosen)
                .ThenBy(partner => partner.WhyNot is not null)
                .ThenByDescending(partner => partner.SameBand)
                .ThenBy(partner => DaysApart(partner, together))
                .ThenBy(partner => partner.CellsNeeded)
                .ThenBy(partner => partner.BatchCode, StringComparer.Ordinal),
        ];
    }

    private static TrayPartner PartnerOf(SharerRow row, IReadOnlyList<Guid> chosen, List<Sharer> together)
    {
        var (batch, crop) = (row.Row.Batch, row.Row.Crop);
        var isChosen = chosen.Contains(batch.Id.Value);
        var sameBand = together.TrueForAll(other =>
            other.Crop.GerminationMinC == crop.GerminationMinC && other.Crop.GerminationMaxC == crop.GerminationMaxC);
        return new TrayPartner(
            batch.Id.Value, batch.Code, batch.Version, crop.Name, row.Row.Variety.Name, row.Row.TraySet.CellsPerTray, batch.Cells, row.CellsNeeded,
            batch.SowOn, row.Sharer.MoveOffOn, crop.GerminationMinC, crop.GerminationMaxC, isChosen, sameBand,
            isChosen ? null : Sharing.WhyNot([.. together, row.Sharer]));
    }

    private static int DaysApart(TrayPartner partner, List<Sharer> together) => together.Count == 0
        ? 0
        : together.Max(other => Math.Abs(Period.DaysBetween(other.MoveOffOn, partner.MoveOffOn)));
}
