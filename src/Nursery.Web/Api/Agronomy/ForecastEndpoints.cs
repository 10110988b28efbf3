using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Nursery.Application.Crops;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

internal static class ForecastEndpoints
{
    public static void MapForecast(this RouteGroupBuilder api) =>
        api.MapPost("/emergence-forecast", ForecastAsync)
            .Needs(Right.Read, "forecastEmergence", "Final stand and usable plants of a batch from its counts so far")
            .Reads<ForecastRequest>()
            .Produces<ForecastAnswer>();

    private static async Task<IResult> ForecastAsync(HttpContext http, FindCropEmergence crops)
    {
        var body = await RequestBody.JsonAsync(http);
        var name = body.Text("crop");
        var seeds = body.Number("seeds", new(1, 50_000_000, "seeds"));
        var cells = body.Whole("cells", new(1, 1_000_000, "cells"));
        var seedsPerCell = body.Whole("seedsPerCell", new(1, 50, "seeds"));
        var prior = BetaBody.Read(body.Object("prior"));
        var survival = BetaBody.ReadOptional(body.OptionalObject("survival"));
        var steps = body.Objects("temperatures", Ranges.MostItems)
            .Select(step => (Day: step.Number("day", Ranges.Day), Celsius: step.Number("temperatureC", new(-20, 60, "°C")))).ToList();
        var counts = body.OptionalObjects("counts", Ranges.MostItems).Select(count => new EmergenceCount(
            count.Number("day", Ranges.Day), count.Word<CountKind>("what"), count.Whole("value", new(0, 50_000_000, "of what is counted")),
            count.Whole("cells", new(1, Math.Max(1, cells), "cells")))).ToList();
        var asOf = body.Number("asOfDay", Ranges.Day);
        var wanted = body.Whole("wantedPlants", new(0, 10_000_000, "plants"));
        var due = body.OptionalNumber("dueDay", new(0, 1000, "days since sowing"));
        var grow = body.OptionalNumber("growDays", new(0, 366, "days"));
        if (seeds != (double)cells * seedsPerCell)
        {
            body.Refuse("seeds", FormattableString.Invariant($"cells × seedsPerCell, {(long)cells * seedsPerCell} seeds"));
        }

        body.Done();
        var crop = await crops.HandleAsync(name, await http.CallerAsync(), http.RequestAborted);
        return ApiAnswer.Ok(ForecastAnswer.Of(EmergenceForecast.Of(new ForecastQuestion(
            crop.Rate, crop.Curve, cells, seedsPerCell, prior(), Record(steps), counts, asOf, wanted)
        {
            Survival = survival?.Invoke(),
            DueDay = due,
            GrowDays = grow,
        }), AgronomyHow.Forecast(body.Inputs)));
    }

    /// <summary>The first temperature known holds from sowing on.</summary>
    private static TemperatureRecord Record(List<(double Day, double Celsius)> steps) =>
        new([.. steps.Select((step, index) => (index == 0 ? 0 : step.Day, Temperature.FromDegrees(step.Celsius)))]);
}
