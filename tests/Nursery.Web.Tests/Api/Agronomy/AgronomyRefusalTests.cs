using System.Text.Json.Nodes;
using Xunit;

namespace Nursery.Web.Tests.Api.Agronomy;

/// <summary>Bad input to every computation: out of range, no number, unknown crop, contradictory fields; the answer names field and
/// range, and the unit where there is one.</summary>
[Collection(ApiCollection.Name)]
public sealed class AgronomyRefusalTests(ApiServer server)
{
    private const string Root = "/api/v1/agronomy";

    private const string Forecast = """
        {"crop":"Tomato","seeds":288,"cells":288,"seedsPerCell":1,"prior":{"a":29.75,"b":5.25},"temperatures":[{"day":0,"temperatureC":25}],
         "counts":[{"day":6,"what":"seedlings","value":120,"cells":288}],"asOfDay":8,"wantedPlants":230}
        """;

    private const string Sowing = """{"wantedPlants":100,"confidence":0.95,"prior":{"a":29.75,"b":5.25},"seedsPerCell":[1,2],"cellsPerTray":72}""";
    private const string Figures = """{"seeds":50,"counts":[{"day":5,"germinated":4}]}""";
    private const string Viability = """{"crop":"Onion","moisturePercent":8,"temperatureC":10,"days":365,"initialFraction":0.9}""";
    private const string Light = """{"ppfd":200,"hours":16}""";
    private const string Grass = """{"tminC":12,"tmaxC":22,"rhMeanPercent":70,"windMs":2,"windHeightM":2,"solarMjM2":20,"latitude":50,"altitudeM":100,"date":"2026-07-06"}""";
    private const string Days = """{"minC":7,"maxC":19,"lowerC":12,"upperC":33,"method":"singleSine"}""";
    private const string Feed = """{"ppm":200,"nutrientPercent":20,"waterL":100,"injectorRatio":100}""";
    private const string Mix = """{"trays":10,"cells":72,"cellVolumeMl":43,"settling":0.1,"waste":0.05,"amendments":[{"name":"gypsum","gramsPerM3":1200}]}""";

    public static TheoryData<string, string, string, int, string> Bodies => new()
    {
        { "/emergence-forecast", Changed(Forecast, "crop", "\"Teasel\""), "crop", 422, "crops" },
        { "/emergence-forecast", Changed(Forecast, "cells", "0"), "cells", 422, "cells" },
        { "/emergence-forecast", Changed(Forecast, "seeds", "300"), "seeds", 422, "seeds" },
        { "/emergence-forecast", Changed(Forecast, "prior", "{\"a\":-1,\"b\":5}"), "prior.a", 422, "0.05" },
        { "/emergence-forecast", Changed(Forecast, "prior", "{\"a\":\"NaN\",\"b\":5}"), "prior.a", 400, "0.05" },
        { "/emergence-forecast", Changed(Forecast, "temperatures", "[{\"day\":0,\"temperatureC\":99}]"), "temperatures[0].temperatureC", 422, "°C" },
        { "/emergence-forecast", Changed(Forecast, "temperatures", "[]"), "temperatures", 400, "list" },
        { "/emergence-forecast", Changed(Forecast, "temperatures", "[{\"day\":0,\"temperatureC\":20},{\"day\":0,\"temperatureC\":21}]"), "day", 422, "days" },
        { "/emergence-forecast", Changed(Forecast, "counts", "[{\"day\":6,\"what\":\"seedlings\",\"value\":289,\"cells\":288}]"), "counts.value", 422, "seedlings" },
        { "/emergence-forecast", Changed(Forecast, "counts", "[{\"day\":6,\"what\":\"heads\",\"value\":9,\"cells\":288}]"), "counts[0].what", 400, "blanks" },
        { "/emergence-forecast", Changed(Forecast, "asOfDay", "1e999"), "asOfDay", 422, "days" },
        { "/sowing", Changed(Sowing, "wantedPlants", "0"), "wantedPlants", 422, "plants" },
        { "/sowing", Changed(Sowing, "confidence", "1"), "confidence", 422, "0.9999" },
        { "/sowing", Changed(Sowing, "seedsPerCell", "[]"), "seedsPerCell", 400, "list" },
        { "/sowing", Changed(Sowing, "seedsPerCell", "[16]"), "seedsPerCell[0]", 422, "seeds" },
        { "/sowing", Changed(Sowing, "keep", "{\"low\":3,\"high\":2}"), "keep.high", 422, "plants" },
        { "/sowing", Changed(Sowing, "keep", "{\"low\":3,\"high\":5}"), "seedsPerCell", 422, "keep.low" },
        { "/sowing", Changed(Sowing, "costs", "{\"seed\":-0.1}"), "costs.seed", 422, "currency" },
        { "/sowing", Changed(Sowing, "prior", "7"), "prior", 400, "object" },
        { "/sowing", Changed(Sowing, "trayLoss", "0.9"), "trayLoss", 422, "0.5" },
        { "/germination-figures", Changed(Figures, "seeds", "0"), "seeds", 422, "seeds" },
        { "/germination-figures", Changed(Figures, "counts", "[{\"day\":1,\"germinated\":30},{\"day\":2,\"germinated\":30}]"), "germinated", 422, "seeds" },
        { "/germination-figures", Changed(Figures, "counts", "[{\"day\":1,\"germinated\":3},{\"day\":1,\"germinated\":3}]"), "day", 422, "days" },
        { "/germination-figures", Changed(Figures, "counts", "[{\"day\":-1,\"germinated\":3}]"), "counts[0].day", 422, "days" },
        { "/viability", Changed(Viability, "crop", "\"Teasel\""), "crop", 422, "Onion" },
        { "/viability", Changed(Viability, "ke", "7"), "crop", 422, "not both" },
        { "/viability", Changed(Viability, "initialFraction", "1"), "initialFraction", 422, "below" },
        { "/viability", Changed(Viability, "moisturePercent", "90"), "moisturePercent", 422, "%" },
        { "/viability", Changed(Viability, "temperatureC", "\"NaN\""), "temperatureC", 400, "°C" },
        { "/light", Changed(Light, "wantedMol", "12"), "hours", 422, "exactly one way" },
        { "/light", Changed(Light, "hours", "25"), "hours", 422, " h" },
        { "/light", """{"ppfd":200,"wantedMol":12}""", "naturalMol", 422, "mol" },
        { "/light", """{"ppfd":0,"wantedMol":12,"naturalMol":3}""", "ppfd", 422, "µmol" },
        { "/reference-evapotranspiration", Changed(Grass, "actualKpa", "1"), "rhMeanPercent", 422, "exactly one" },
        { "/reference-evapotranspiration", Changed(Grass, "sunshineHours", "5"), "sunshineHours", 422, "exactly one" },
        { "/reference-evapotranspiration", Changed(Grass, "tmaxC", "11"), "tmaxC", 422, "°C" },
        { "/reference-evapotranspiration", Changed(Grass, "windMs", "-1"), "windMs", 422, "m/s" },
        { "/reference-evapotranspiration", Changed(Grass, "date", "\"2026-02-30\""), "date", 400, "YYYY-MM-DD" },
        { "/degree-days", Changed(Days, "maxC", "5"), "maxC", 422, "°C" },
        { "/degree-days", Changed(Days, "upperC", "12"), "upperC", 422, "°C" },
        { "/degree-days", Changed(Days, "method", "\"doubleSine\""), "nextMinC", 422, "°C" },
        { "/degree-days", Changed(Days, "method", "\"square\""), "method", 400, "singleSine" },
        { "/feed", Changed(Feed, "ppm", "0"), "ppm", 422, "ppm" },
        { "/feed", Changed(Feed, "nutrientPercent", "101"), "nutrientPercent", 422, "%" },
        { "/feed", Changed(Feed, "waterL", "null"), "waterL", 400, "L" },
        { "/feed", Changed(Feed, "injectorRatio", "0.5"), "injectorRatio", 422, "parts" },
        { "/mix", Changed(Mix, "cellVolumeMl", "0"), "cellVolumeMl", 422, "mL" },
        { "/mix", Changed(Mix, "trays", "1.5"), "trays", 400, "whole" },
        { "/mix", Changed(Mix, "settling", "2"), "settling", 422, "0 to 1" },
        { "/mix", Changed(Mix, "amendments", "[{\"name\":\"gypsum\",\"gramsPerM3\":-1}]"), "amendments[0].gramsPerM3", 422, "g/m³" },
        { "/standards/replicate-range", """{"percents":[90,91,92]}""", "percents", 422, "2 or 4" },
        { "/standards/replicate-range", """{"percents":[90,101]}""", "percents[1]", 422, "%" },
        { "/standards/replicate-range", """{"percents":["a","b"]}""", "percents[0]", 400, "%" },
    };

    public static TheoryData<string, string, int, string> Addresses => new()
    {
        { "/emergence?crop=Onion", "temperatureC", 400, "°C" },
        { "/emergence?temperatureC=20", "crop", 400, "crops" },
        { "/emergence?crop=Onion&temperatureC=NaN", "temperatureC", 400, "°C" },
        { "/emergence?crop=Onion&temperatureC=99", "temperatureC", 422, "0 to 50 °C" },
        { "/emergence?crop=Teasel&temperatureC=20", "crop", 422, "crops" },
        { "/sun?latitude=91&longitude=0&date=2026-01-01&zone=UTC", "latitude", 422, "°" },
        { "/sun?latitude=1&longitude=0&date=2026-01-01&zone=Mars/Base", "zone", 422, "IANA" },
        { "/sun?latitude=1&longitude=0&date=2026-13-01&zone=UTC", "date", 400, "YYYY-MM-DD" },
        { "/sun?latitude=1&longitude=0&zone=UTC", "date", 400, "YYYY-MM-DD" },
        { "/air?temperatureC=20&relativeHumidity=0&altitudeM=0", "relativeHumidity", 422, "%" },
        { "/air?temperatureC=20&relativeHumidity=50&altitudeM=99999", "altitudeM", 422, "m" },
        { "/air?temperatureC=20&relativeHumidity=50&altitudeM=0&formula=magnus", "formula", 400, "ashrae" },
        { "/standards/germination-minimum?kind=Teasel", "kind", 422, "kinds" },
        { "/standards/germination-minimum", "kind", 400, "kinds" },
    };

    [Theory]
    [MemberData(nameof(Bodies))]
    public async Task Post_BadInput_NamesFieldUnitAndRange(string path, string body, string field, int status, string allowed)
    {
        using var response = await server.Client.PostAsync(Root + path, Wire.Json(body));
        var problem = await response.ProblemAsync(status);
        Assert.Contains(allowed, problem.Error(field).Text("allowed"), StringComparison.Ordinal);
        Assert.Contains(field, problem.Text("detail"), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Get_BadInput_NamesFieldUnitAndRange(string path, string field, int status, string allowed)
    {
        using var response = await server.Client.GetAsync(Root + path);
        var problem = await response.ProblemAsync(status);
        Assert.Contains(allowed, problem.Error(field).Text("allowed"), StringComparison.Ordinal);
        Assert.Contains(field, problem.Text("detail"), StringComparison.Ordinal);
    }

    private static string Changed(string body, string name, string value)
    {
        var rest = JsonNode.Parse(body)!.AsObject();
        rest.Remove(name);
        return $"{rest.ToJsonString()[..^1]},\"{name}\":{value}}}";
    }
}
