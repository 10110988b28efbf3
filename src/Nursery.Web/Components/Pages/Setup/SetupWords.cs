using Nursery.Application.Setup;

namespace Nursery.Web.Components.Pages.Setup;

/// <summary>The steps to a first sowing in words, and where each is done.</summary>
internal static class SetupWords
{
    public static string Of(SetupStep step) => step switch
    {
        SetupStep.House => "a house",
        SetupStep.GerminationBench => "a germination bench",
        SetupStep.HeatZone => "a heat zone on it",
        SetupStep.GrowingBench => "a growing bench",
        SetupStep.Variety => "varieties",
        SetupStep.SeedLot => "a seed lot",
        SetupStep.OrderLine => "orders to sow for",
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "a step without words"),
    };

    public static string Next(SetupStep step) => step switch
    {
        SetupStep.House => "a house with its benches, below, or house by house.",
        SetupStep.GerminationBench => "a bench for germination, where the heat zones are.",
        SetupStep.HeatZone => "the heat zone of a germination bench, with its setpoint.",
        SetupStep.GrowingBench => "a bench where trays grow on after the heat.",
        SetupStep.Variety => "your sheet of varieties, below.",
        SetupStep.SeedLot => "the seed you have, lot by lot or as a file.",
        SetupStep.OrderLine => "a file of orders: what is to be ready when.",
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "a step without words"),
    };

    public static string Link(SetupStep step) => step switch
    {
        SetupStep.House => "/setup/houses",
        SetupStep.GerminationBench or SetupStep.GrowingBench => "/setup/benches",
        SetupStep.HeatZone => "/setup/heat-zones",
        SetupStep.Variety => "/setup/varieties",
        SetupStep.SeedLot => "/setup/seed-lots",
        SetupStep.OrderLine => "/orders",
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "a step without a place"),
    };
}
