using Nursery.Agronomy.Forecast;

namespace Nursery.Web.Api.Agronomy;

/// <summary>A batch to forecast. Day 0 is sowing.</summary>
internal sealed record ForecastRequest(
    string Crop,
    long Seeds,
    int Cells,
    int SeedsPerCell,
    BetaBody Prior,
    BetaBody? Survival,
    IReadOnlyList<TemperatureStep> Temperatures,
    IReadOnlyList<CountBody>? Counts,
    double AsOfDay,
    int WantedPlants,
    double? DueDay,
    double? GrowDays);

/// <summary>A temperature of the mix that holds from its day to the next.</summary>
internal sealed record TemperatureStep(double Day, double TemperatureC);

/// <summary>One count of so many cells.</summary>
internal sealed record CountBody(double Day, CountKind What, int Value, int Cells);
