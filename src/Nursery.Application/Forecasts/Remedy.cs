using NodaTime;

namespace Nursery.Application.Forecasts;

/// <summary>One remedy and what it is worth.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Words">What it is here, in a sentence.</param>
/// <param name="CanBe">Whether it can be done now.</param>
/// <param name="Plants">Plants gained by the due day, on average.</param>
/// <param name="Cost">In prices of one plant; null where it costs a customer's patience only.</param>
/// <param name="Saves">What it saves against doing nothing, in prices of one plant; null where it depends on the customer.</param>
/// <param name="DaysLate">After the due day, for the plants it is about.</param>
public sealed record Remedy(RemedyKind Kind, string Words, bool CanBe, int Plants, double? Cost, double? Saves, int DaysLate)
{
    /// <summary>Hand work, minutes.</summary>
    public decimal? Minutes { get; init; }

    /// <summary>Last day it can be done for the plants to be there on their day.</summary>
    public LocalDate? LastDay { get; init; }

    /// <summary>What one tap would plan; null where nothing is to be sown.</summary>
    public ResowProposal? Resow { get; init; }
}

/// <summary>A batch that would make up for a short stand, sown today.</summary>
/// <param name="VarietyCode">Of the variety.</param>
/// <param name="LotCode">Of the lot.</param>
/// <param name="Trays">Whole ones.</param>
/// <param name="Seeds">They take.</param>
/// <param name="Plants">Ordered plants that wait for it from then on.</param>
/// <param name="ReadyOn">Likely.</param>
/// <param name="ChanceMet">That with it the orders are met, 0–1.</param>
public sealed record ResowProposal(string VarietyCode, string LotCode, int Trays, long Seeds, int Plants, LocalDate ReadyOn, double ChanceMet);
