using Nursery.Agronomy;
using Nursery.Agronomy.Feed;
using Nursery.Agronomy.Mix;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Feed and mix.</summary>
internal static class PreparationEndpoints
{
    public static void MapPreparation(this RouteGroupBuilder api)
    {
        api.MapPost("/feed", (Delegate)FeedAsync)
            .Needs(Right.Read, "computeFeed", "Fertilizer for a strength, in the water and in the injector's concentrate")
            .Reads<FeedRequest>()
            .Produces<FeedAnswer>();
        api.MapPost("/mix", (Delegate)MixAsync)
            .Needs(Right.Read, "computeMix", "Growing mix for trays, with amendments by volume")
            .Reads<MixRequest>()
            .Produces<MixAnswer>();
    }

    private static async Task<IResult> FeedAsync(HttpContext http)
    {
        await http.CallerAsync();
        var body = await RequestBody.JsonAsync(http);
        var ppm = body.Number("ppm", new(0, 5000, "ppm") { AboveLow = true });
        var nutrient = body.Number("nutrientPercent", Ranges.PositivePercent);
        var water = body.Number("waterL", new(0, 10_000_000, "L") { AboveLow = true });
        var ratio = body.OptionalNumber("injectorRatio", new(1, 1000, "parts of water to one of concentrate")) ?? 1;
        body.Done();
        var feed = FeedSolution.Of(ppm, Fraction.FromPercent(nutrient), new Volume(water), ratio);
        return ApiAnswer.Ok(new FeedAnswer(feed.Fertilizer.Grams, feed.PerLiterConcentrate.Grams, feed.PerHundredGallons.Ounces, AgronomyHow.Feed(body.Inputs)));
    }

    private static async Task<IResult> MixAsync(HttpContext http)
    {
        await http.CallerAsync();
        var body = await RequestBody.JsonAsync(http);
        var (trays, cells) = (body.Whole("trays", new(0, 1_000_000, "trays")), body.Whole("cells", new(1, 2000, "cells of a tray")));
        var volume = body.Number("cellVolumeMl", new(0, 20_000, "mL") { AboveLow = true });
        var settling = body.OptionalNumber("settling", Ranges.Share) ?? MixVolume.UsualSettling;
        var waste = body.OptionalNumber("waste", Ranges.Share) ?? MixVolume.UsualWaste;
        var amendments = body.OptionalObjects("amendments", 100)
            .Select(item => new MixAmendment(item.Text("name"), new Mass(item.Number("gramsPerM3", new(0, 100_000, "g/m³"))))).ToList();
        body.Done();
        var mix = MixVolume.Of(trays, cells, Volume.FromMilliliters(volume), new Fraction(settling), new Fraction(waste), amendments);
        return ApiAnswer.Ok(new MixAnswer(
            mix.Volume.Liters, mix.Volume.CubicFeet, [.. mix.Amendments.Select(item => new AmendmentAnswer(item.Name, item.Mass.Grams))],
            AgronomyHow.Mix(body.Inputs, settling, waste)));
    }
}
