using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>°C·days.</summary>
internal sealed record DegreeDaysAnswer(double DegreeDaysC, How How);
