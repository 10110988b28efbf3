using Nursery.Application.Reservations;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Reservations;

internal static class ReservationEndpoints
{
    public static void MapReservations(this RouteGroupBuilder api)
    {
        api.MapPost("/reservations", ReserveAsync)
            .Needs(Right.Plan, "reserveSpaces", "Holds tray spaces of a bench; 'to' is the first day no longer held")
            .Reads<ReserveSpacesRequest>()
            .Produces<ReservedSpaces>(StatusCodes.Status201Created)
            .OnceByKey();
        api.MapPost("/reservations/first-fit", FirstFitAsync)
            .Needs(Right.Plan, "placeByFirstFit", "Gives every planned batch without a place one, in order of sowing day")
            .Produces<FirstFitOutcome>()
            .OnceByKey();
    }

    private static async Task<IResult> ReserveAsync(HttpContext http, ReserveSpaces reserve)
    {
        var body = await RequestBody.JsonAsync(http);
        var request = new ReserveSpacesRequest(
            body.Text("traySetCode"),
            body.Text("benchCode"),
            body.Whole("trays"),
            body.OptionalWhole("firstSpace"),
            body.Day("from"),
            body.Day("to"));
        body.Done();
        return ApiAnswer.Created(await reserve.HandleAsync(request, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> FirstFitAsync(HttpContext http, PlaceByFirstFit place) =>
        ApiAnswer.Ok(await place.HandleAsync(await http.CallerAsync(), http.RequestAborted));
}
