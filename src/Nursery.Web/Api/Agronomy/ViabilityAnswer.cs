using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>What is left of seed in store. Low and high: the store a probit worse or better than said.</summary>
internal sealed record ViabilityAnswer(double SigmaDays, double Fraction, double FractionLow, double FractionHigh, double DaysToHalf, string Source, How How);
