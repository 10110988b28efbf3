using Nursery.Agronomy;
using Nursery.Agronomy.Germination;
using Nursery.Agronomy.SeedAge;
using Nursery.Application.Computed;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

internal static class SeedEndpoints
{
    private static readonly string[] Constants = ["ke", "cw", "ch", "cq"];

    public static void MapSeed(this RouteGroupBuilder api)
    {
        api.MapPost("/germination-figures", (Delegate)FiguresAsync)
            .Needs(Right.Read, "computeGerminationFigures", "The usual figures of a germination test from daily counts; null where one does not exist")
            .Reads<GerminationFiguresRequest>()
            .Produces<GerminationFiguresAnswer>();
        api.MapPost("/viability", (Delegate)ViabilityAsync)
            .Needs(Right.Read, "computeViability", "How seed ages in store, by Ellis and Roberts")
            .Reads<ViabilityRequest>()
            .Produces<ViabilityAnswer>();
    }

    private static async Task<IResult> FiguresAsync(HttpContext http)
    {
        var body = await RequestBody.JsonAsync(http);
        var seeds = body.Whole("seeds", new(1, 1_000_000, "seeds"));
        var counts = body.OptionalObjects("counts", Ranges.MostItems).Select(count => new DayCount(
            count.Number("day", new(0, 400, "days since sowing")), count.Whole("germinated", new(0, Math.Max(1, seeds), "seeds, new that day")))).ToList();
        body.Done();
        return ApiAnswer.Ok(GerminationFiguresAnswer.Of(new GerminationFigures(seeds, counts), AgronomyHow.GerminationFigures(body.Inputs)));
    }

    private static async Task<IResult> ViabilityAsync(HttpContext http)
    {
        var body = await RequestBody.JsonAsync(http);
        var crop = body.OptionalText("crop");
        var given = Constants.Where(body.Has).ToList();
        if (crop is not null && given.Count > 0)
        {
            body.Refuse("crop", "crop, or ke, cw, ch and cq: not both");
        }

        var (ke, cw, ch, cq) = crop is null
            ? (body.Number("ke", new(0, 20, "")), body.Number("cw", new(0, 20, "")), body.Number("ch", new(-1, 1, "per °C")), body.Number("cq", new(-0.1, 0.1, "per °C²")))
            : default;
        var moisture = body.Number("moisturePercent", new(2, 30, "% of fresh weight"));
        var celsius = body.Number("temperatureC", new(-30, 90, "°C"));
        var days = body.Number("days", new(0, 100_000, "days"));
        var initial = body.Number("initialFraction", new(0, 1, "(all of n seeds is (n - 0.25)/n)") { AboveLow = true, BelowHigh = true });
        body.Done();
        var (constants, source) = crop is null ? (new ViabilityConstants(ke, cw, ch, cq), "as sent") : OfCrop(crop);
        var viability = new Viability(constants, Fraction.FromPercent(moisture), Temperature.FromDegrees(celsius));
        var left = viability.AfterWithinAProbit(new Fraction(initial), days);
        return ApiAnswer.Ok(new ViabilityAnswer(
            viability.SigmaDays, viability.After(new Fraction(initial), days).Value, left.Low, left.High,
            viability.DaysTo(new Fraction(initial), new Fraction(0.5)), source,
            AgronomyHow.Viability([.. body.Inputs, .. crop is null ? [] : InputsOf(constants, source)], source)));
    }

    private static HowInput[] InputsOf(ViabilityConstants constants, string source) =>
    [
        HowInput.Of("KE", constants.KE, "0.#####", "", source), HowInput.Of("CW", constants.CW, "0.#####", "", source),
        HowInput.Of("CH", constants.CH, "0.#####", "per °C", source), HowInput.Of("CQ", constants.CQ, "0.########", "per °C²", source),
    ];

    private static (ViabilityConstants Constants, string Source) OfCrop(string crop) =>
        ViabilityConstants.ByCrop.TryGetValue(crop.Trim(), out var found)
            ? found
            : throw new InvalidFields("crop", crop, $"a crop with published constants ({string.Join(", ", ViabilityConstants.ByCrop.Keys)}), or ke, cw, ch, cq");
}
