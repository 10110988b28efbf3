using System.Text;
using Nursery.Application.Exports;
using Nursery.Domain.People;

namespace Nursery.Application.Germination;

/// <summary>What the lines of a file of germination are.</summary>
public enum GerminationLines
{
    /// <summary>A crop, variety, lot or house each.</summary>
    Rows,

    /// <summary>A batch each.</summary>
    Batches,

    /// <summary>A count each: the points of the curves.</summary>
    Counts,
}

/// <summary>Germination as CSV: the same rows, in the same order, as on the page.</summary>
public sealed class ExportGermination(ShowGermination show)
{
    /// <exception cref="Domain.Refusals.InvalidFields">Days the wrong way round, or a figure outside its range.</exception>
    public async Task<byte[]> HandleAsync(
        GerminationLines lines, GerminationRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var view = await show.HandleAsync(request, actor, cancellation);
        return Encoding.UTF8.GetBytes(string.Concat(lines switch
        {
            GerminationLines.Rows => Rows(view),
            GerminationLines.Batches => Batches(view),
            GerminationLines.Counts => Counts(view),
            _ => throw new ArgumentOutOfRangeException(nameof(lines), lines, "lines without columns"),
        }));
    }

    private static IEnumerable<string> Rows(GerminationView view) =>
        view.Rows.Select(row => row.Item).Select(item => CsvLine.Of(
            item.Key, item.Name, item.Batches, item.Seeds, item.Emerged, Percent(item.Fraction), Percent((decimal?)item.FractionSpread),
            Rounded(item.HalfDays), item.HalfBatches, Percent(item.LabelFraction), Percent(item.LabelDifference),
            item.MinimumKind, Percent(item.MinimumFraction), Percent(item.MinimumDifference)))
        .Prepend(CsvLine.Of(
            "code", "name", "batches", "seeds", "emerged", "rate_percent", "spread_points", "half_days_median", "half_batches",
            "label_percent", "label_difference_points", "minimum_kind", "minimum_percent", "minimum_difference_points"));

    private static IEnumerable<string> Batches(GerminationView view) =>
        view.Rows.SelectMany(row => row.Batches.Select(batch => CsvLine.Of(
            row.Item.Key, row.Item.Name, batch.Code, batch.CropName, batch.VarietyName, batch.LotCode, batch.HouseCode, batch.SownOn,
            batch.Seeds, batch.Emerged, Percent(batch.Fraction), Percent(batch.LabelFraction),
            Rounded(batch.Half?.Days), batch.Half?.AtMost, batch.Counts.Count)))
        .Prepend(CsvLine.Of(
            "code", "name", "batch", "crop", "variety", "lot", "house", "sown_on", "seeds", "emerged", "rate_percent", "label_percent",
            "half_days", "half_days_at_most", "counts"));

    private static IEnumerable<string> Counts(GerminationView view) =>
        view.Batches.SelectMany(batch => batch.Counts.Select(count => CsvLine.Of(
            batch.Code, batch.CropName, batch.VarietyName, batch.LotCode, batch.SownOn, count.Day, batch.DaysOf(count),
            count.Seeds, count.Up, Percent(count.Fraction))))
        .Prepend(CsvLine.Of(
            "batch", "crop", "variety", "lot", "sown_on", "counted_on", "days_after_sowing", "seeds", "up", "up_percent"));

    private static decimal? Percent(decimal? fraction) => fraction is { } known ? Math.Round(known * 100, 2) : null;

    private static decimal? Rounded(double? days) => days is { } known ? Math.Round((decimal)known, 2) : null;
}
