using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Germination;
using Nursery.Application.Germination.Curves;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Printing;
using Nursery.Printing.GerminationReports;

namespace Nursery.Application.Papers;

/// <summary>What the germination page shows, on one page of paper.</summary>
public sealed class PrintGermination(IDbContextFactory<NurseryDbContext> databases, ShowGermination show, TimeProvider time)
{
    /// <param name="request">As on the page.</param>
    /// <param name="open">Key of the row whose curves are drawn; null for those of the first row.</param>
    /// <param name="paper">The site's own when not given; letter when that is a roll.</param>
    /// <returns>A PDF.</returns>
    /// <exception cref="Domain.Refusals.InvalidFields">Days the wrong way round, or a figure outside its range.</exception>
    public async Task<byte[]> HandleAsync(
        GerminationRequest request, string? open, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var view = await show.HandleAsync(request, actor, cancellation);
        var sheet = site.Sheet(paper);
        var drawn = view.Rows.FirstOrDefault(row => open is null || row.Item.Key == open);
        return GerminationReportDocument.Render(new GerminationReportModel(
            site.Imprint(time),
            sheet,
            Subtitle(request, view),
            GerminationWords.Key(request.By),
            [.. view.Rows.Select(RowOf)],
            drawn is null ? null : CurvesOf(drawn, GerminationReportDocument.CurvesSize(sheet))));
    }

    private static string Subtitle(GerminationRequest request, GerminationView view)
    {
        var days = (request.From, request.To?.PlusDays(-1)) switch
        {
            (null, null) => "every sowing",
            ({ } from, null) => $"sown from {PaperWords.Day(from)}",
            (null, { } to) => $"sown until {PaperWords.Day(to)}",
            ({ } from, { } to) => $"sown {PaperWords.Day(from)} to {PaperWords.Day(to)}",
        };
        var only = new[]
        {
            view.Crops.FirstOrDefault(crop => crop.Code == request.Crop).Name ?? request.Crop,
            view.Houses.FirstOrDefault(house => house.Code == request.House).Name ?? request.House,
            request.Lot is null ? null : "lot " + request.Lot,
            request.Below is { } below ? string.Create(CultureInfo.InvariantCulture, $"below {below * 100:0.##} %") : null,
        }.OfType<string>();
        var batches = view.Rows.Sum(row => row.Item.Batches);
        var counted = string.Create(CultureInfo.InvariantCulture, $"{batches} {(batches == 1 ? "batch" : "batches")} counted");
        return string.Join(" · ", only.Prepend(days).Append(counted));
    }

    private static GerminationReportRow RowOf(GerminationRow row) => new(
        row.Item.Name,
        Number(row.Item.Batches),
        Number(row.Item.Seeds),
        row.Item.Emerged.ToString("#,0.#", CultureInfo.InvariantCulture),
        GerminationWords.Percent(row.Item.Fraction),
        GerminationWords.Spread(row.Item.FractionSpread),
        GerminationWords.Half(row.Item),
        GerminationWords.Label(row.Item),
        GerminationWords.Minimum(row));

    private static PrintedCurves CurvesOf(GerminationRow row, CurvesRoom room)
    {
        var size = new CurveSize(room.Width, room.Height, room.LabelHeight, room.Left, room.Right, room.Top, room.Bottom);
        var chart = CurveChart.Of(row.Batches, row.Compared, size);
        var left = chart.Unlabeled == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", {chart.Unlabeled} of them without a label");
        return new PrintedCurves(
            string.Create(CultureInfo.InvariantCulture, $"Emergence curves of {row.Batches.Count} {(row.Batches.Count == 1 ? "batch" : "batches")}{left}: {row.Item.Name}"),
            size.Left,
            size.Top,
            size.PlotRight,
            size.PlotBottom,
            [.. chart.Days.Select(mark => (mark.At, mark.Text))],
            [.. chart.Percents.Select(mark => (mark.At, mark.Text))],
            [.. chart.Lines.Select(line => new PrintedCurve(line.Label, [.. line.Points.Select(point => (point.X, point.Y))], line.LabelAt))],
            [.. chart.Levels.Select(level => new PrintedCurve(level.Label, [(size.Left, level.At), (size.PlotRight, level.At)], level.LabelAt))]);
    }

    private static string Number(long number) => number.ToString("N0", CultureInfo.InvariantCulture);
}
