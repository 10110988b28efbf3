using Nursery.Agronomy;
using Nursery.Agronomy.Standards;

namespace Nursery.Application.Germination;

/// <summary>Puts batches together into rows.</summary>
internal static class GerminationRows
{
    public static IReadOnlyList<GerminationRow> Of(IEnumerable<GerminatedBatch> batches, GerminationRequest request)
    {
        var rows = batches.GroupBy(batch => KeyOf(request.By, batch))
            .Select(group => RowOf(group.Key, group))
            .Where(row => request.Below is not { } below || row.Item.Fraction < below)
            .OrderBy(row => row.Item.Name, StringComparer.Ordinal)
            .ThenBy(row => row.Item.Key, StringComparer.Ordinal);
        return [.. request.Order == GerminationOrder.Name && !request.Descending ? rows : Sorted(rows, request)];
    }

    private static IEnumerable<GerminationRow> Sorted(IEnumerable<GerminationRow> byName, GerminationRequest request)
    {
        if (request.Order == GerminationOrder.Name)
        {
            return byName.Reverse();
        }

        // A stable sort: rows alike stay by name.
        var known = byName.OrderBy(row => Figure(row.Item, request.Order) is null);
        return request.Descending
            ? known.ThenByDescending(row => Figure(row.Item, request.Order))
            : known.ThenBy(row => Figure(row.Item, request.Order));
    }

    private static double? Figure(GerminationItem item, GerminationOrder order) => order switch
    {
        GerminationOrder.Batches => item.Batches,
        GerminationOrder.Seeds => item.Seeds,
        GerminationOrder.Emerged => (double)item.Emerged,
        GerminationOrder.Fraction => (double)item.Fraction,
        GerminationOrder.FractionSpread => item.FractionSpread,
        GerminationOrder.HalfDays => item.HalfDays,
        GerminationOrder.LabelDifference => (double?)item.LabelDifference,
        GerminationOrder.MinimumDifference => (double?)item.MinimumDifference,
        _ => throw new ArgumentOutOfRangeException(nameof(order), order, "an order without a figure"),
    };

    private static (string Key, string Name) KeyOf(GerminationKey by, GerminatedBatch batch) => by switch
    {
        GerminationKey.Crop => (batch.CropCode, batch.CropName),
        GerminationKey.Variety => (batch.VarietyCode, $"{batch.CropName} ‘{batch.VarietyName}’"),
        GerminationKey.Lot => batch.LotCode is { } lot ? (lot, $"{lot} {batch.CropName} ‘{batch.VarietyName}’") : ("", "no lot"),
        GerminationKey.House => batch.HouseCode is { } house ? (house, batch.HouseName!) : ("", "no house known"),
        _ => throw new ArgumentOutOfRangeException(nameof(by), by, "a key without a rule"),
    };

    private static GerminationRow RowOf((string Key, string Name) key, IEnumerable<GerminatedBatch> group)
    {
        var batches = group.OrderByDescending(batch => batch.SownOn).ThenBy(batch => batch.Code, StringComparer.Ordinal).ToList();
        var rate = EmergenceRate.Of([.. batches.Select(batch => (batch.Seeds, batch.Emerged))]);
        var (label, above) = AgainstLabel(batches);
        var minimum = MinimumOf(batches);
        var minimumFraction = minimum is null ? null : (decimal?)minimum.Minimum.Value;
        var halves = batches.ConvertAll(batch => batch.Half);
        return new GerminationRow(
            new GerminationItem(
                key.Key, key.Name, rate.Batches, rate.Seeds, rate.Emerged, rate.Fraction, rate.Spread,
                label, above, minimum?.Kind, minimumFraction, rate.Fraction - minimumFraction,
                HalfTime.Median(halves), halves.Count(half => half?.Days is not null)),
            batches);
    }

    private static (decimal? Label, decimal? Difference) AgainstLabel(List<GerminatedBatch> batches)
    {
        var labeled = batches.FindAll(batch => batch.LabelFraction is not null);
        var seeds = labeled.Sum(batch => (decimal)batch.Seeds);
        if (seeds == 0)
        {
            return (null, null);
        }

        var label = labeled.Sum(batch => batch.LabelFraction!.Value * batch.Seeds) / seeds;
        return (label, (labeled.Sum(batch => batch.Emerged) / seeds) - label);
    }

    /// <summary>The standard that all of them share.</summary>
    private static GerminationMinimum? MinimumOf(List<GerminatedBatch> batches)
    {
        var kinds = batches.Select(batch => batch.CropName).Distinct().Select(StandardKind.Of).Distinct().ToList();
        return kinds is [{ } only] ? only : null;
    }
}
