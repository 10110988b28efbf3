using Nursery.Agronomy;
using Nursery.Agronomy.Sowing;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

internal static class SowingEndpoints
{
    public static void MapSowing(this RouteGroupBuilder api) =>
        api.MapPost("/sowing", (Delegate)SowingAsync)
            .Needs(Right.Read, "computeSowing", "Fewest cells for each number of seeds a cell that give enough plants with a chance, and their cost")
            .Reads<SowingRequest>()
            .Produces<SowingAnswer>();

    private static async Task<IResult> SowingAsync(HttpContext http)
    {
        var body = await RequestBody.JsonAsync(http);
        var wanted = body.Whole("wantedPlants", new(1, 1_000_000, "plants"));
        var confidence = body.Number("confidence", new(0.01, 0.9999, ""));
        var prior = BetaBody.Read(body.Object("prior"));
        var survival = BetaBody.ReadOptional(body.OptionalObject("survival"));
        var correlation = body.OptionalNumber("withinCellCorrelation", new(0, 0.9, "")) ?? 0;
        var loss = body.OptionalNumber("trayLoss", new(0, 0.5, "")) ?? 0;
        var kept = body.OptionalObject("keep");
        var (low, high) = kept is null ? (1, 1) : (kept.Whole("low", new(1, 15, "plants")), kept.Whole("high", new(1, 15, "plants")));
        if (kept is not null && high < low)
        {
            kept.Refuse("high", FormattableString.Invariant($"keep.low or more, {low} to 15 plants"));
        }

        var seeds = body.Wholes("seedsPerCell", 15, new(1, 15, "seeds a cell"));
        var cellsPerTray = body.Whole("cellsPerTray", new(1, 2000, "cells"));
        var costs = Costs(body.OptionalObject("costs"));
        // Fewer seeds than are kept never fill a cell: no number of cells would do.
        var able = seeds.Where(count => count >= low).ToList();
        if (able.Count == 0 && seeds.Count > 0)
        {
            body.Refuse("seedsPerCell", FormattableString.Invariant($"one or more with at least keep.low, {low} to 15 seeds a cell"));
        }

        body.Done();
        var question = new SowingQuestion(wanted, prior(), cellsPerTray)
        {
            Confidence = new Fraction(confidence),
            Survival = survival?.Invoke(),
            WithinCellCorrelation = correlation,
            TrayLoss = loss,
            Keep = new Keep(low, high),
            Costs = costs,
        };
        var options = new SowingOptions(question).All(able);
        return ApiAnswer.Ok(new SowingAnswer(
            options, options.MinBy(option => option.Cost)!, low == 1 && high == 1 && loss == 0 ? PatchOption.Of(question) : null,
            AgronomyHow.Sowing(body.Inputs)));
    }

    private static SowingCosts Costs(JsonFields? fields)
    {
        double Cost(string name) => fields?.OptionalNumber(name, Ranges.Cost) ?? 0;
        return new SowingCosts(
            Cost("seed"), Cost("cell"), Cost("mix"), Cost("thinSecond"), fields?.OptionalNumber("thinSecondsPerCell", new(0, 3600, "s")) ?? 3,
            Cost("heatDay"), fields?.OptionalNumber("heatDays", new(0, 366, "days")) ?? 0, Cost("blank"));
    }
}
