using Nursery.Application.Computed;
using Nursery.Agronomy.Air;

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
