using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>mol m⁻² d⁻¹ of the lamps, or hours of them (16 at most); the other is null.</summary>
internal sealed record LightAnswer(double? Mol, double? LampHours, How How);
