using Microsoft.OpenApi;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Application;
using Nursery.Application.Crops;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

internal static class EmergenceEndpoints
{
    private static readonly string[] ProfileSources = ["the site's crop profile; base and ceiling by class, spread: from memory"];

    public static void MapEmergence(this RouteGroupBuilder api)
    {
        api.MapGet("/crops", CropsAsync)
            .Needs(Right.Read, "listAgronomyCrops", "Crops the computations know, by the names they may be asked for")
            .Produces<Page<CropNameItem>>();
        api.MapGet("/emergence", EmergenceAsync)
            .Needs(Right.Read, "emergence", "Days to emergence and normal seedlings of a crop at a temperature of the growing mix")
            .Takes("crop", JsonSchemaType.String, "a name of /agronomy/crops or the code of a crop, whatever the case")
            .Takes("temperatureC", JsonSchemaType.Number, "0–50 °C")
            .Produces<EmergenceAnswer>()
            .Refuses(422);
    }

    private static async Task<IResult> CropsAsync(HttpContext http, ListCropNames crops) =>
        ApiAnswer.Ok(new Page<CropNameItem>(await crops.HandleAsync(await http.CallerAsync(), http.RequestAborted), null));

    private static async Task<IResult> EmergenceAsync(HttpContext http, FindCropEmergence crops)
    {
        var query = new QueryFields(http);
        var name = query.NeededText("crop", "a name of /api/v1/agronomy/crops or the code of a crop");
        var celsius = query.Number("temperatureC", Ranges.MixCelsius);
        query.Done();
        var crop = await crops.HandleAsync(name, await http.CallerAsync(), http.RequestAborted);
        var temperature = Temperature.FromDegrees(celsius);
        var reason = crop.Published is { } published
            ? published.WhyNone(temperature)
            : crop.Rate.RateAt(temperature) > 0 ? null : "outside base and ceiling of the crop profile";
        double? Days(double share) => reason is null ? crop.Rate.DaysToHalf(temperature) * crop.Curve.ProgressTo(new Fraction(share)) : null;
        var model = new EmergenceModelAnswer(
            (double)crop.Rate.Base.Celsius, crop.Rate.ThermalTime, (double)crop.Rate.Optimum.Celsius, (double)crop.Rate.Ceiling.Celsius,
            crop.Curve.Sigma, crop.Curve.Family);
        var sources = crop.Published is null ? ProfileSources : CropEmergence.Sources;
        return ApiAnswer.Ok(new EmergenceAnswer(
            crop.Name, celsius, Days(0.1), Days(0.5), Days(0.9), reason, crop.Published?.Normal.At(temperature).Value,
            crop.Published is { SleepsInHeat: true } && celsius > 25 ? "seed of this crop sleeps in heat: sow primed seed or cooler" : null,
            model, sources,
            AgronomyHow.Emergence(query.Inputs, model, crop.Published is null ? "the site's crop profile" : "fitted to the published days", sources)));
    }
}
