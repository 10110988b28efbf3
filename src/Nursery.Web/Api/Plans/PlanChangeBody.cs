using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Plans;

/// <summary>One of the changes of a plan, as other systems spell it.</summary>
internal static class PlanChangeBody
{
    private static readonly string[] Kinds =
    [
        "batchSlips", "benchOutOfUse", "zoneBroken", "orderAdded", "batchCancelled", "zoneSetpoints", "spacesRented", "hardeningSpaces", "prices",
    ];

    private static readonly NumberRange Setpoint = new(32, 120, "°F");

    /// <summary>Null when its kind is none of them; that is told with the other faults of the body.</summary>
    public static PlanEvent? Of(JsonFields body) => body.Word("kind", Kinds) switch
    {
        "batchSlips" => new SlippedBatch(body.Text("batch"), body.Whole("days")),
        "benchOutOfUse" => new BenchOut(body.Text("bench"), body.Day("from"), body.Day("to"), body.OptionalText("why")),
        "zoneBroken" => new ZoneOut(body.Text("zone"), body.Day("from"), body.Day("to"), body.OptionalText("why")),
        "orderAdded" => new AddedOrder(body.Text("variety"), body.Whole("plants"), body.Day("readyOn")),
        "batchCancelled" => new CancelledBatch(body.Text("batch")),
        "zoneSetpoints" => new TriedSetpoints(body.Text("zone"), body.Numbers("setpointsF", 8, Setpoint)),
        "spacesRented" => new RentedSpaces(body.Word<PlaceKind>("use"), body.Whole("spaces"), body.Day("from"), body.Day("to")),
        "hardeningSpaces" => new MoreHardening(body.Whole("more")),
        "prices" => new TriedPrices(
            body.OptionalWhole("dayOffDue"), body.OptionalWhole("dayLate"), body.OptionalWhole("degreeOff"), body.OptionalWhole("unplacedTray"),
            body.OptionalWhole("heatTenDegrees"), body.OptionalWhole("setpointChange"), body.OptionalWhole("split"),
            body.OptionalWhole("movedSowDay"), body.OptionalWhole("movedPlace")),
        _ => null,
    };
}
