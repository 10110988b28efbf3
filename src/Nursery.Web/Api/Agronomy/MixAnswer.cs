using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Mix to prepare and what goes into it.</summary>
internal sealed record MixAnswer(double Litres, double CubicFeet, IReadOnlyList<AmendmentAnswer> Amendments, How How);

/// <summary>How much of an amendment.</summary>
internal sealed record AmendmentAnswer(string Name, double Grams);
