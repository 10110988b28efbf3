namespace Nursery.Web.Api.Agronomy;

/// <summary>Seed in store: a crop with published constants, or the constants themselves.</summary>
internal sealed record ViabilityRequest(
    string? Crop, double? Ke, double? Cw, double? Ch, double? Cq, double MoisturePercent, double TemperatureC, double Days, double InitialFraction);
