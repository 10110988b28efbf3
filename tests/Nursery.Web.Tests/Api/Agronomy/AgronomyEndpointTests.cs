using System.Globalization;
using System.Net;
using System.Text.Json;
using Xunit;

namespace Nursery.Web.Tests.Api.Agronomy;

/// <summary>The computations as other systems ask for them, with published values (tests/reference).</summary>
[Collection(ApiCollection.Name)]
public sealed class AgronomyEndpointTests(ApiServer server)
{
    /// <summary>Whoever asks can tell where each answer is from: formula, what went in with units, source, page.</summary>
    [Theory]
    [InlineData("/emergence?crop=onion&temperatureC=15", null, "temperatureC", "15", "°C")]
    [InlineData("/emergence?crop=BA&temperatureC=20", null, "thermal time", "", "°C·d")]
    [InlineData("/emergence-forecast", """{"crop":"Tomato","seeds":72,"cells":72,"seedsPerCell":1,"prior":{"a":30,"b":5},"temperatures":[{"day":0,"temperatureC":25}],"asOfDay":3,"wantedPlants":50}""", "prior.a", "30", "")]
    [InlineData("/sowing", """{"wantedPlants":10,"confidence":0.9,"prior":{"a":30,"b":5},"seedsPerCell":[1,2],"cellsPerTray":72}""", "seedsPerCell", "1, 2", "")]
    [InlineData("/germination-figures", """{"seeds":50,"counts":[{"day":2,"germinated":20},{"day":3,"germinated":9}]}""", "counts", "2", "items")]
    [InlineData("/viability", """{"crop":"Onion","moisturePercent":8,"temperatureC":15,"days":300,"initialFraction":0.9}""", "CH", "", "per °C")]
    [InlineData("/sun?latitude=-20&longitude=0&date=2026-09-03&zone=UTC", null, "latitude", "-20", "° north")]
    [InlineData("/light", """{"ppfd":200,"hours":10}""", "ppfd", "200", "µmol m⁻² s⁻¹")]
    [InlineData("/air?temperatureC=20&relativeHumidity=50&altitudeM=0", null, "relativeHumidity", "50", "%")]
    [InlineData("/reference-evapotranspiration", """{"tminC":12,"tmaxC":21,"rhMinPercent":63,"rhMaxPercent":84,"windMs":2.8,"windHeightM":10,"sunshineHours":9.25,"latitude":50.8,"altitudeM":100,"date":"2026-07-06"}""", "windMs", "2.8", "m/s")]
    [InlineData("/degree-days", """{"minC":10,"maxC":25,"lowerC":10,"upperC":30,"method":"simpleAverage"}""", "method", "simpleAverage", "")]
    [InlineData("/feed", """{"ppm":100,"nutrientPercent":20,"waterL":100}""", "waterL", "100", "L")]
    [InlineData("/mix", """{"trays":3,"cells":72,"cellVolumeMl":43}""", "settling", "0.1", "")]
    [InlineData("/standards/germination-minimum?kind=Tomato", null, "kind", "Tomato", "")]
    [InlineData("/standards/replicate-range", """{"percents":[90,92,95,88]}""", "percents", "90, 92, 95, 88", "")]
    public async Task Every_answer_carries_how_it_came_to_be(string path, string? body, string input, string value, string unit)
    {
        var how = (body is null ? await GetAsync(path) : await PostAsync(path, body)).GetProperty("how");
        Assert.All(["what", "formula", "source", "page"], member => Assert.NotEmpty(how.Text(member)));
        Assert.True(File.Exists(Path.Combine(RepositoryRoot(), how.Text("page"))), how.Text("page"));
        var found = Assert.Single(how.GetProperty("inputs").EnumerateArray(), one => one.Text("name") == input);
        Assert.Equal(unit, found.Text("unit"));
        Assert.True(value.Length == 0 ? found.Text("value").Length > 0 : found.Text("value") == value, found.Text("value"));
        Assert.NotEmpty(found.Text("from"));
    }

    private static string RepositoryRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "Nursery.sln")))
        {
            folder = folder.Parent;
        }

        return folder.FullName;
    }

    private const string Root = "/api/v1/agronomy";

    /// <summary>Days table S10 of 02a: onion 7 days at 59 °F; lettuce 12 of 99 percent normal at 86 °F (S12).</summary>
    [Fact]
    public async Task Emergence_PublishedCrop_GivesDaysNormalSeedlingsAndSources()
    {
        var onion = await GetAsync("/emergence?crop=onion&temperatureC=15");
        Assert.Equal(7, Number(onion, "daysToHalf"), 0.5);
        Assert.True(Number(onion, "daysTo10Percent") < Number(onion, "daysToHalf") && Number(onion, "daysToHalf") < Number(onion, "daysTo90Percent"));
        Assert.Equal("logLogistic", onion.GetProperty("model").Text("family"));
        Assert.NotEmpty(onion.GetProperty("sources").EnumerateArray());
        var lettuce = await GetAsync("/emergence?crop=LETTUCE&temperatureC=30");
        Assert.Equal(12d / 99, Number(lettuce, "normalFraction"), 1e-9);
        Assert.Contains("heat", lettuce.Text("warning"), StringComparison.Ordinal);
    }

    /// <summary>02a: celery NG at 86 °F, cabbage NT at 95 °F.</summary>
    [Theory]
    [InlineData("Celery", 30, "no germination")]
    [InlineData("Cabbage", 35, "not tested")]
    public async Task Emergence_WhereNothingIsPrinted_IsNullWithAReason(string crop, int celsius, string reason)
    {
        var answer = await GetAsync($"/emergence?crop={crop}&temperatureC={celsius}");
        Assert.Equal(JsonValueKind.Null, answer.GetProperty("daysToHalf").ValueKind);
        Assert.Contains(reason, answer.Text("reason"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Emergence_ByCodeOfOurCrop_IsThatCropOrItsProfile()
    {
        Assert.Equal("Tomato", (await GetAsync("/emergence?crop=to&temperatureC=25")).Text("crop"));
        var basil = await GetAsync("/emergence?crop=BA&temperatureC=23.9");
        Assert.Equal(6, Number(basil, "daysToHalf"), 0.1);
        Assert.Contains("profile", basil.GetProperty("sources")[0].GetString(), StringComparison.Ordinal);
        var names = (await GetAsync("/crops")).Items().Select(item => item.Text("name")).ToList();
        Assert.True(names.Contains("Bean, lima") && names.Contains("Basil"));
    }

    [Fact]
    public async Task Forecast_BatchWithCounts_ExpectsWhatIsLeft()
    {
        var answer = await PostAsync("/emergence-forecast", """
            {"crop":"Tomato","seeds":288,"cells":288,"seedsPerCell":1,"prior":{"a":29.75,"b":5.25},"survival":{"a":38,"b":2},
             "temperatures":[{"day":0,"temperatureC":25}],"counts":[{"day":6,"what":"seedlings","value":120,"cells":288},
             {"day":14,"what":"blanks","value":38,"cells":288},{"day":16,"what":"cellsUp","value":250,"cells":288}],
             "asOfDay":16,"wantedPlants":230,"dueDay":60,"growDays":35}
            """);
        Assert.InRange(Number(answer.GetProperty("finalFraction"), "median"), 250 / 288d - 0.01, 0.9);
        Assert.InRange(Number(answer.GetProperty("stand"), "low"), 240, 251);
        Assert.InRange(Number(answer.GetProperty("usablePlants"), "median"), 228, 245);
        Assert.InRange(Number(answer, "chanceWantedMet"), 0.5, 1);
        Assert.InRange(Number(answer, "dayOf90Percent"), 5, 16);
        Assert.InRange(Number(answer, "lastResowDay"), 10, 25);
    }

    /// <summary>Computed for docs/agronomy/sowing.md and by simulation: 142 cells at a + b = 35 with survival 0.97.</summary>
    [Fact]
    public async Task Sowing_HundredPlants_GivesCellsTraysAndChance()
    {
        var answer = await PostAsync("/sowing", """
            {"wantedPlants":100,"confidence":0.95,"prior":{"a":29.75,"b":5.25},"survival":{"a":970000,"b":30000},"seedsPerCell":[1,2,3],
             "cellsPerTray":72,"costs":{"seed":0.01,"cell":0.07,"thinSecond":0.005}}
            """);
        var one = answer.GetProperty("options")[0];
        Assert.Equal((1, 142, 2, 142), (one.Whole("seedsPerCell"), one.Whole("cells"), one.Whole("trays"), one.Whole("seeds")));
        Assert.InRange(Number(one, "chance"), 0.95, 0.96);
        Assert.Equal((142 * 0.01) + (142 * 0.07), Number(one, "cost"), 1e-9);
        Assert.Equal(
            answer.GetProperty("options").EnumerateArray().Min(option => Number(option, "cost")), Number(answer.GetProperty("best"), "cost"));
        Assert.True(Number(answer.GetProperty("patch"), "chance") >= 0.95);
    }

    [Fact]
    public async Task Sowing_Clumps_LeaveOutWhatCannotFillACell()
    {
        var answer = await PostAsync("/sowing", """
            {"wantedPlants":100,"confidence":0.95,"prior":{"a":29.75,"b":5.25},"keep":{"low":3,"high":5},"seedsPerCell":[2,4,6],"cellsPerTray":72}
            """);
        Assert.Equal([4, 6], answer.GetProperty("options").EnumerateArray().Select(option => option.Whole("seedsPerCell")));
        Assert.Equal(JsonValueKind.Null, answer.GetProperty("patch").ValueKind);
    }

    /// <summary>05a row 1 and 13a: printed figures of 0 0 0 0 4 17 10 7 1 0 1 and Newcombe's interval.</summary>
    [Fact]
    public async Task GerminationFigures_PrintedSample_Agree()
    {
        var answer = await PostAsync("/germination-figures", """
            {"seeds":50,"counts":[{"day":5,"germinated":4},{"day":6,"germinated":17},{"day":7,"germinated":10},{"day":8,"germinated":7},
             {"day":9,"germinated":1},{"day":11,"germinated":1},{"day":4,"germinated":0}]}
            """);
        Assert.Equal(0.8, Number(answer, "finalFraction"), 1e-12);
        Assert.Equal(5.970588, Number(answer, "t50Coolbear"), 6e-6);
        Assert.Equal(5.941176, Number(answer, "t50Farooq"), 6e-6);
        Assert.Equal(6.7, Number(answer, "meanTime"), 1e-9);
        Assert.Equal(1.446154, Number(answer, "timeVariance"), 1e-6);
        Assert.Equal(14.92537, Number(answer, "coefficientOfVelocity"), 1e-5);
        Assert.Equal(0.2666667, Number(answer, "synchronyZ"), 1e-7);
        Assert.Equal(2.062987, Number(answer, "uncertaintyU"), 1e-6);
        Assert.Equal(6.138925, Number(answer, "speedIndex"), 1e-6);
        var newcombe = await PostAsync("/germination-figures", """{"seeds":263,"counts":[{"day":1,"germinated":81}]}""");
        Assert.Equal(0.2553, newcombe.GetProperty("wilson95")[0].GetDouble(), 5e-5);
        Assert.Equal(0.3676, newcombe.GetProperty("clopperPearson95")[1].GetDouble(), 5e-5);
        Assert.Equal(JsonValueKind.Null, (await PostAsync("/germination-figures", """{"seeds":5,"counts":[]}""")).GetProperty("meanTime").ValueKind);
    }

    /// <summary>07b rows 1 and 5 (rice 87): sigma 5382.388 days; 98 % after a year 97.64797 %.</summary>
    [Fact]
    public async Task Viability_PrintedResults_Agree()
    {
        var answer = await PostAsync("/viability", """
            {"ke":8.242,"cw":4.345,"ch":0.0307,"cq":0.000501,"moisturePercent":10,"temperatureC":5,"days":365,"initialFraction":0.98}
            """);
        Assert.Equal(5382.388, Number(answer, "sigmaDays"), 0.005);
        Assert.Equal(0.9764797, Number(answer, "fraction"), 1e-7);
        Assert.Equal(5382.388 * 2.05374891, Number(answer, "daysToHalf"), 0.02);
        Assert.Contains("Ellis", (await PostAsync("/viability", """
            {"crop":"onion","moisturePercent":8,"temperatureC":10,"days":365,"initialFraction":0.9}
            """)).Text("source"), StringComparison.Ordinal);
    }

    /// <summary>10e (S115): USNO, 39° N 105° W, 2 January 2015: 07:19 and 16:49; and Beijing.</summary>
    [Theory]
    [InlineData("39", "-105", "2015-01-02", "America/Denver", "07:19", "16:49")]
    [InlineData("39", "-105", "2015-01-02", "-07:00", "07:19", "16:49")]
    [InlineData("39.917", "116.383", "2015-01-02", "+08:00", "07:36", "17:00")]
    [InlineData("39.917", "116.383", "2015-01-02", "%2B08:00", "07:36", "17:00")]
    public async Task Sun_OfTheAlmanac_AgreesWithinAMinuteAndAHalf(
        string latitude, string longitude, string date, string zone, string sunrise, string sunset)
    {
        var answer = await GetAsync($"/sun?latitude={latitude}&longitude={longitude}&date={date}&zone={zone}");
        Assert.Equal(Minutes(sunrise), Minutes(answer.Text("sunrise")), 1.5);
        Assert.Equal(Minutes(sunset), Minutes(answer.Text("sunset")), 1.5);
        Assert.Equal(JsonValueKind.Null, answer.GetProperty("polar").ValueKind);
    }

    /// <summary>10d, FAO-56 example 8: 3 September, 20° S: 32.2 MJ (13.1 mm × 1 ÷ 0.408).</summary>
    [Fact]
    public async Task Sun_ExampleOfThePaper_AgreesAndThePoleHasNoTimes()
    {
        var paper = await GetAsync("/sun?latitude=-20&longitude=0&date=2015-09-03&zone=UTC");
        Assert.Equal(13.1, Number(paper, "extraterrestrialMjM2") * 0.408, 0.06);
        Assert.Equal(11.7, Number(paper, "daylightHours"), 0.05);
        var pole = await GetAsync("/sun?latitude=78&longitude=15&date=2026-06-21&zone=Europe/Oslo");
        Assert.Equal(("day", JsonValueKind.Null), (pole.Text("polar"), pole.GetProperty("sunrise").ValueKind));
    }

    /// <summary>11a (25 °C: 3.168 kPa), 11c (3169.7 Pa) and 11b (1800 m: 81.8 kPa).</summary>
    [Fact]
    public async Task Air_Tables_Agree()
    {
        var fao = await GetAsync("/air?temperatureC=25&relativeHumidity=50&altitudeM=1800");
        Assert.Equal((3.168, 81.8), (Math.Round(Number(fao, "saturationKpa"), 3), Math.Round(Number(fao, "pressureKpa"), 1)));
        Assert.Equal(Number(fao, "saturationKpa") / 2, Number(fao, "deficitKpa"), 1e-9);
        var ashrae = await GetAsync("/air?temperatureC=25&relativeHumidity=50&altitudeM=0&formula=ashrae");
        Assert.Equal(3.1697, Number(ashrae, "saturationKpa"), 0.001);
        Assert.True(Number(ashrae, "dewPointC") < Number(ashrae, "wetBulbC"));
    }

    /// <summary>10a: 200 µmol for 16 h are 11.52 mol.</summary>
    [Fact]
    public async Task Light_PrintedTable_AgreesBothWays()
    {
        Assert.Equal(11.52, Number(await PostAsync("/light", """{"ppfd":200,"hours":16}"""), "mol"), 1e-9);
        Assert.Equal(10, Number(await PostAsync("/light", """{"wantedMol":12,"naturalMol":4.8,"ppfd":200}"""), "lampHours"), 1e-9);
    }

    /// <summary>10d, FAO-56 example 17: Bangkok in April, 5.72 mm a day.</summary>
    [Fact]
    public async Task ReferenceEvapotranspiration_Bangkok_IsThePapers()
    {
        var answer = await PostAsync("/reference-evapotranspiration", """
            {"tminC":25.6,"tmaxC":34.8,"actualKpa":2.85,"windMs":2,"windHeightM":2,"sunshineHours":8.5,"soilHeatMjM2":0.14,
             "latitude":13.7333,"altitudeM":2,"date":"2015-04-15"}
            """);
        Assert.Equal(5.72, Number(answer, "mmPerDay"), 0.02);
        Assert.Equal(14.33, Number(answer, "netMjM2"), 0.03);
        Assert.Equal(22.65, Number(answer, "solarMjM2"), 0.03);
    }

    /// <summary>14a row 1 (S150), 09a (S80 by the exact factor), 01a and 01c.</summary>
    [Fact]
    public async Task SmallComputations_PublishedRows_Agree()
    {
        var day = """{"minC":7.8,"maxC":19.4,"nextMinC":4.4,"lowerC":12,"upperC":33,"method":"METHOD"}""";
        foreach (var (method, expected) in new[] { ("singleSine", 2.72), ("doubleSine", 2.53), ("singleTriangle", 2.36), ("doubleTriangle", 2.09) })
        {
            Assert.Equal(expected, Number(await PostAsync("/degree-days", day.Replace("METHOD", method, StringComparison.Ordinal)), "degreeDaysC"), 0.006);
        }

        var feed = await PostAsync("/feed", """{"ppm":200,"nutrientPercent":20,"waterL":378.5411784,"injectorRatio":100}""");
        Assert.Equal(13.35, Number(feed, "ouncesPer100Gal"), 0.01);
        Assert.Equal((378.54, 100d), (Math.Round(Number(feed, "grams"), 2), Math.Round(Number(feed, "gramsPerLitreConcentrate"), 9)));
        var mix = await PostAsync("/mix", """
            {"trays":10,"cells":72,"cellVolumeMl":43,"settling":0.1,"waste":0.05,"amendments":[{"name":"gypsum","gramsPerM3":1200}]}
            """);
        Assert.Equal((35.7588, 42.91), (Math.Round(Number(mix, "litres"), 4), Math.Round(Number(mix.GetProperty("amendments")[0], "grams"), 2)));
        Assert.Equal(68, (await GetAsync("/standards/kinds")).Items().Count);
        Assert.Equal(70, Number(await GetAsync("/standards/germination-minimum?kind=bean,%20garden"), "percent"));
        var range = await PostAsync("/standards/replicate-range", """{"percents":[84,97,90,90]}""");
        Assert.Equal((13d, 12, false), (Number(range, "range"), range.Whole("allowed"), range.GetProperty("within").GetBoolean()));
    }

    private static double Minutes(string clock) => TimeSpan.Parse(clock, CultureInfo.InvariantCulture).TotalMinutes;

    private static double Number(JsonElement element, string name) => element.GetProperty(name).GetDouble();

    private Task<JsonElement> GetAsync(string path) => server.Client.GetJsonAsync(Root + path);

    private async Task<JsonElement> PostAsync(string path, string body)
    {
        using var response = await server.Client.PostAsync(Root + path, Wire.Json(body));
        return await response.JsonAsync(HttpStatusCode.OK);
    }
}
