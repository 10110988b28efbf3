using Nursery.Agronomy.Air;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Moist air by one set of formulas.</summary>
internal sealed record AirAnswer(
    double SaturationKpa,
    double SlopeKpaPerC,
    double ActualKpa,
    double DeficitKpa,
    double DewPointC,
    double WetBulbC,
    double PressureKpa,
    AirFormula Formula,
    How How);
