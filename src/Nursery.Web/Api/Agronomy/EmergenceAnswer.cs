using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Emergence of a crop at one temperature; days are null where seed does not come, and reason says why.</summary>
internal sealed record EmergenceAnswer(
    string Crop,
    double TemperatureC,
    double? DaysTo10Percent,
    double? DaysToHalf,
    double? DaysTo90Percent,
    string? Reason,
    double? NormalFraction,
    string? Warning,
    EmergenceModelAnswer Model,
    IReadOnlyList<string> Sources,
    How How);
