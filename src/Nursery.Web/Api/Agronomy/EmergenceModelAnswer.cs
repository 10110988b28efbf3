using Nursery.Agronomy.Emergence;

namespace Nursery.Web.Api.Agronomy;

/// <summary>The parameters behind the days.</summary>
internal sealed record EmergenceModelAnswer(
    double BaseC, double ThermalTimeCDays, double OptimumC, double CeilingC, double Sigma, SpreadFamily Family);
