using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Reservations;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>What becomes of the spaces batches held before they share trays: the shared trays stay in the places of the first
/// batch where they fit and suit all; every other place is free from today.</summary>
internal sealed class SharedPlaces(NurseryDbContext database, Site site, Actor actor, TimeProvider time)
{
    /// <returns>What happens, in sentences.</returns>
    public async Task<IReadOnlyList<string>> MoveAsync(
        IReadOnlyList<SharerRow> sharers, TraySet set, CancellationToken cancellation)
    {
        var today = site.Today(time);
        var old = sharers.Select(row => row.Row.TraySet.Id).ToList();
        var codes = sharers.ToDictionary(row => row.Row.TraySet.Id, row => row.Row.Batch.Code);
        var benchIds = await database.Reservations.Where(row => old.Contains(row.TraySetId))
            .Select(row => row.BenchId).ToListAsync(cancellation);
        var benches = (await database.LockBenchesAsync(benchIds, cancellation)).ToDictionary(bench => bench.Id);
        var rows = await database.Reservations
            .Where(row => old.Contains(row.TraySetId) && row.Days.End >= today).ToListAsync(cancellation);
        var follows = new List<string>();
        if (rows.Count == 0)
        {
            follows.Add("The shared trays have no place yet: reserve spaces for them");
            return follows;
        }

        var change = new PlanChange(database, site, actor, time);
        var sowOn = sharers.Min(row => row.Row.Batch.SowOn);
        var kept = 0;
        foreach (var row in rows.OrderBy(row => row.Days.Start).ThenBy(row => row.Id))
        {
            var (from, to) = (LocalDate.Max(today, row.Days.Start), row.To);
            var bench = benches[row.BenchId];
            change.EndOn(row, from);
            if (row.TraySetId == set.Id && await FitsAsync(row, bench, set, sharers, sowOn, from, cancellation))
            {
                var spaces = new SpaceRun(row.Spaces.First, set.SpacesFor(set.Trays));
                change.Hold(row, new SpaceRun(1, set.Trays), bench, spaces, from, to);
                follows.Add($"Bench {bench.Code}, spaces {spaces}, {Day(from)} to {Day(to)}: the shared trays lie there");
                kept++;
            }
            else
            {
                follows.Add($"Bench {bench.Code}, spaces {row.Spaces}, {Day(from)} to {Day(to)}: free again, {codes[row.TraySetId]} held them");
            }
        }

        if (kept == 0)
        {
            follows.Add("The shared trays have no place yet: reserve spaces for them");
        }

        await change.SaveAsync($"{set.Code}: shared by {string.Join(", ", codes.Values.Order(StringComparer.Ordinal))}", cancellation);
        return follows;
    }

    private async Task<bool> FitsAsync(
        Reservation row,
        Bench bench,
        TraySet set,
        IReadOnlyList<SharerRow> sharers,
        LocalDate sowOn,
        LocalDate from,
        CancellationToken cancellation)
    {
        if (row.Trays.First != 1 || set.SpacesFor(set.Trays) > row.Spaces.Count || (bench.Kind == BenchKind.Germination && sowOn < from))
        {
            return false;
        }

        var crops = sharers.Select(sharer => sharer.Row.Crop).ToList();
        var temperatures = await BenchTemperatures.LoadAsync(database, bench, crops, from, row.To, cancellation);
        try
        {
            temperatures.Refuse(new SpaceRun(row.Spaces.First, set.SpacesFor(set.Trays)));
            return true;
        }
        catch (Refusal refusal) when (refusal is TooCold or TooHot)
        {
            return false;
        }
    }

    private static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
}
