using Microsoft.OpenApi;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Agronomy.Air;
using Nursery.Agronomy.DegreeDays;
using Nursery.Agronomy.Light;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

internal static class SkyEndpoints
{
    private const string Zones = "an IANA time zone such as America/Chicago, or ±HH:MM";

    public static void MapSky(this RouteGroupBuilder api)
    {
        api.MapGet("/sun", (Delegate)SunAsync)
            .Needs(Right.Read, "sun", "Sun of a day at a place: radiation outside the air, length of the day, sunrise and sunset")
            .Takes("latitude", JsonSchemaType.Number, "° north, -90 to 90")
            .Takes("longitude", JsonSchemaType.Number, "° east, -180 to 180")
            .TakesDay("date", "day of the zone")
            .Takes("zone", JsonSchemaType.String, Zones)
            .Produces<SunAnswer>()
            .Refuses(422);
        api.MapGet("/air", (Delegate)AirAsync)
            .Needs(Right.Read, "air", "Moist air: saturation, deficit, dew point, wet bulb")
            .Takes("temperatureC", JsonSchemaType.Number, "-60 to 60 °C")
            .Takes("relativeHumidity", JsonSchemaType.Number, "above 0, to 100 %")
            .Takes("altitudeM", JsonSchemaType.Number, "-500 to 9000 m")
            .TakesWord<AirFormula>("formula", "fao56 when not given; ashrae is over ice below 0 °C")
            .Produces<AirAnswer>()
            .Refuses(422);
        api.MapPost("/light", (Delegate)LightAsync)
            .Needs(Right.Read, "computeLight", "Daily light of lamps, or hours of lamps for what is missing")
            .Reads<LightRequest>()
            .Produces<LightAnswer>();
        api.MapPost("/reference-evapotranspiration", (Delegate)EvapotranspirationAsync)
            .Needs(Right.Read, "computeReferenceEvapotranspiration", "Reference evapotranspiration of open grass by FAO-56, with every term")
            .Reads<EvapotranspirationRequest>()
            .Produces<EvapotranspirationAnswer>();
        api.MapPost("/degree-days", (Delegate)DegreeDaysAsync)
            .Needs(Right.Read, "computeDegreeDays", "Degree days of a day with horizontal cutoff")
            .Reads<DegreeDaysRequest>()
            .Produces<DegreeDaysAnswer>();
    }

    private static async Task<IResult> SunAsync(HttpContext http)
    {
        await http.CallerAsync();
        var query = new QueryFields(http);
        var (latitude, longitude) = (query.Number("latitude", Ranges.Latitude), query.Number("longitude", Ranges.Longitude));
        var date = query.NeededText("date", Parsing.AllowedDay).Length == 0 ? null : query.Day("date");
        var zone = query.NeededText("zone", Zones);
        query.Done();
        var day = date!.Value;
        var sun = new DaySun(new Latitude(latitude), day.DayOfYear);
        var times = SunTimes.Of(new Latitude(latitude), new Longitude(longitude), day.ToDateOnly(), HoursEast(zone, day));
        return ApiAnswer.Ok(new SunAnswer(
            sun.ExtraterrestrialMj, sun.DaylightHours, times.Declination, SunAnswer.Clock(times.Sunrise), SunAnswer.Clock(times.Sunset),
            times.IsPolarDay ? "day" : times.IsPolarNight ? "night" : null,
            AgronomyHow.Sun(query.Inputs)));
    }

    /// <summary>A plus in an address that was not encoded arrives as a space.</summary>
    private static double HoursEast(string zone, LocalDate day)
    {
        var text = zone.StartsWith(' ') ? $"+{zone[1..]}" : zone;
        if (OffsetPattern.CreateWithInvariantCulture("+HH:mm").Parse(text) is { Success: true, Value: var fixedOffset })
        {
            return fixedOffset.Seconds / 3600d;
        }

        return DateTimeZoneProviders.Tzdb.GetZoneOrNull(text) is { } known
            ? known.AtLeniently(day.At(new LocalTime(12, 0))).Offset.Seconds / 3600d
            : throw new InvalidFields("zone", zone, Zones);
    }

    private static async Task<IResult> AirAsync(HttpContext http)
    {
        await http.CallerAsync();
        var query = new QueryFields(http);
        var celsius = query.Number("temperatureC", Ranges.AirCelsius);
        var humidity = query.Number("relativeHumidity", Ranges.PositivePercent);
        var altitude = query.Number("altitudeM", Ranges.Altitude);
        var formula = query.Word<AirFormula>("formula") ?? AirFormula.Fao56;
        query.Done();
        var air = AirState.Of(Temperature.FromDegrees(celsius), Fraction.FromPercent(humidity), new Length(altitude), formula);
        return ApiAnswer.Ok(new AirAnswer(
            air.Saturation.Kilopascals, air.SlopeKpaPerC, air.Actual.Kilopascals, air.Deficit.Kilopascals, (double)air.DewPoint.Celsius,
            (double)air.WetBulb.Celsius, air.AirPressure.Kilopascals, formula,
            AgronomyHow.Air(query.Inputs, formula)));
    }

    private static async Task<IResult> LightAsync(HttpContext http)
    {
        await http.CallerAsync();
        var body = await RequestBody.JsonAsync(http);
        var ppfd = body.Number("ppfd", new(0, 10_000, "µmol m⁻² s⁻¹"));
        var (wanted, natural) = (body.OptionalNumber("wantedMol", new(0, 100, "mol m⁻² d⁻¹")), body.OptionalNumber("naturalMol", new(0, 100, "mol m⁻² d⁻¹")));
        var hours = body.OptionalNumber("hours", new(0, 24, "h"));
        if (hours is null == (wanted is null && natural is null))
        {
            body.Refuse("hours", "ppfd with hours (0 to 24 h), or with wantedMol and naturalMol (0 to 100 mol m⁻² d⁻¹): exactly one way");
        }
        else if (hours is null && (wanted is null || natural is null))
        {
            body.Refuse(wanted is null ? "wantedMol" : "naturalMol", "0 to 100 mol m⁻² d⁻¹, both wantedMol and naturalMol");
        }
        else if (hours is null && ppfd == 0)
        {
            body.Refuse("ppfd", "above 0, to 10000 µmol m⁻² s⁻¹");
        }

        body.Done();
        return ApiAnswer.Ok(hours is { } lit
            ? new LightAnswer(DailyLight.Mol(ppfd, lit), null, AgronomyHow.Light(body.Inputs))
            : new LightAnswer(null, DailyLight.LampHours(wanted!.Value, natural!.Value, ppfd), AgronomyHow.Light(body.Inputs)));
    }

    private static async Task<IResult> EvapotranspirationAsync(HttpContext http)
    {
        await http.CallerAsync();
        var body = await RequestBody.JsonAsync(http);
        var (low, high) = (body.Number("tminC", Ranges.AirCelsius), body.Number("tmaxC", Ranges.AirCelsius));
        Fraction? Humidity(string name) => body.OptionalNumber(name, Ranges.Percent) is { } percent and >= 0 and <= 100 ? Fraction.FromPercent(percent) : null;
        var (mean, least, most) = (Humidity("rhMeanPercent"), Humidity("rhMinPercent"), Humidity("rhMaxPercent"));
        var actual = body.OptionalNumber("actualKpa", new(0, 20, "kPa"));
        var (wind, height) = (body.Number("windMs", new(0, 50, "m/s")), body.OptionalNumber("windHeightM", new(0.5, 100, "m")) ?? 2);
        var (sunshine, solar) = (body.OptionalNumber("sunshineHours", new(0, 24, "h")), body.OptionalNumber("solarMjM2", new(0, 60, "MJ m⁻² d⁻¹")));
        var soil = body.OptionalNumber("soilHeatMjM2", new(-20, 20, "MJ m⁻² d⁻¹")) ?? 0;
        var (latitude, altitude) = (body.Number("latitude", Ranges.Latitude), body.Number("altitudeM", Ranges.Altitude));
        var date = body.Day("date");
        body.Done();
        return ApiAnswer.Ok(EvapotranspirationAnswer.Of(new ReferenceEvapotranspiration(new EvapotranspirationQuestion(
            Temperature.FromDegrees(low), Temperature.FromDegrees(high), wind, new Length(height), new Latitude(latitude), new Length(altitude), date.DayOfYear)
        {
            MeanHumidity = mean,
            MinimumHumidity = least,
            MaximumHumidity = most,
            Actual = actual is { } kilopascals ? new Pressure(kilopascals) : null,
            SunshineHours = sunshine,
            SolarMj = solar,
            SoilHeatMj = soil,
        }), AgronomyHow.Evapotranspiration(body.Inputs)));
    }

    private static async Task<IResult> DegreeDaysAsync(HttpContext http)
    {
        await http.CallerAsync();
        var body = await RequestBody.JsonAsync(http);
        var (low, high) = (body.Number("minC", Ranges.AirCelsius), body.Number("maxC", Ranges.AirCelsius));
        var next = body.OptionalNumber("nextMinC", Ranges.AirCelsius);
        var (lower, upper) = (body.Number("lowerC", new(-20, 50, "°C")), body.Number("upperC", new(-20, 60, "°C")));
        var method = body.Word<DegreeDayMethod>("method");
        if (next is null && method is DegreeDayMethod.DoubleTriangle or DegreeDayMethod.DoubleSine)
        {
            body.Refuse("nextMinC", "the next day's minimum for a double method, -60 to 60 °C");
        }

        body.Done();
        return ApiAnswer.Ok(new DegreeDaysAnswer(DegreeDay.Of(
            Temperature.FromDegrees(low), Temperature.FromDegrees(high), next is { } minimum ? Temperature.FromDegrees(minimum) : null,
            Temperature.FromDegrees(lower), Temperature.FromDegrees(upper), method), AgronomyHow.DegreeDays(body.Inputs)));
    }
}
