using Nursery.Agronomy.Air;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>How each answer came to be: its formula as on its page of docs/agronomy, what went in, and where it is from.</summary>
internal static class AgronomyHow
{
    private const string Memory = "from memory";

    public static How Emergence(
        IReadOnlyList<HowInput> sent, EmergenceModelAnswer model, string from, IReadOnlyList<string> sources) => new(
        "days from sowing until a share is up",
        "r(T) = (T − base) ÷ thermal time up to the optimum, from there straight to 0 at the ceiling; half up at 1 ÷ r; other shares × H⁻¹(share) of the spread",
        [
            .. sent,
            HowInput.Of("base", model.BaseC, "0.0#", "°C", from), HowInput.Of("thermal time", model.ThermalTimeCDays, "0.0#", "°C·d", from),
            HowInput.Of("optimum", model.OptimumC, "0.0#", "°C", from), HowInput.Of("ceiling", model.CeilingC, "0.0#", "°C", from),
            HowInput.Of("sigma", model.Sigma, "0.0##", "", $"{ApiJson.Word(model.Family)} spread, {Memory}"),
        ],
        string.Join("; ", sources),
        "docs/agronomy/emergence.md");

    public static How Forecast(IReadOnlyList<HowInput> sent) => new(
        "what is to come of a batch",
        "posterior of final emergence and speed on a grid: prior × likelihood of the counts, P = F for seedlings, 1 − (1 − F)^k for cells of k seeds; usable = stand × survival; last resow day = due − growing − days until nine in ten of a resow are up",
        sent,
        "grid approximation: Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, 10.1 (from memory); speed ± 0.29 in ln, weight of a count and miscounts from memory, held against invented batches",
        "docs/agronomy/forecast.md");

    public static How Sowing(IReadOnlyList<HowInput> sent) => new(
        "fewest cells and their cost",
        "P(usable of n cells ≥ wanted) ≥ confidence: a cell is filled when at least the kept number of its k seeds is up, chance Beta(a, b), seeds of a cell correlated, × survival, less lost trays; cost = seed + cells + mix + thinning + heat + blanks",
        sent,
        "beta-binomial: Johnson, Kemp & Kotz, Univariate Discrete Distributions, 3rd ed. 2005, 6.2.2 (from memory); what is not sent is none, thinning 3 s a cell, a move of the patch tray 10 s (from memory)",
        "docs/agronomy/sowing.md");

    public static How GerminationFigures(IReadOnlyList<HowInput> sent) => new(
        "figures of a germination test",
        "N = Σ n; mean Σ n t ÷ N; variance Σ n (t − mean)² ÷ (N − 1); CVG 100 N ÷ Σ n t; Z Σ C(n,2) ÷ C(N,2); U −Σ f log₂ f; speed Σ n ÷ t; T50 on a straight line to (N + 1) ÷ 2 (Coolbear) or N ÷ 2 (Farooq)",
        sent,
        "intervals: Newcombe, Statistics in Medicine 17: 857–872, 1998; conventions of two published packages",
        "docs/agronomy/germination.md");

    public static How Viability(IReadOnlyList<HowInput> sent, string source) => new(
        "seed left after storage",
        "v = Ki − p ÷ 10^(KE − CW log₁₀ m − CH t − CQ t²), v and Ki normal deviates; low and high: one probit either way",
        sent,
        $"Ellis & Roberts, Annals of Botany 45: 13–30, 1980; constants: {source}",
        "docs/agronomy/seed-age.md");

    public static How Sun(IReadOnlyList<HowInput> sent) => new(
        "sun of a day",
        "radiation outside the air and daylight: FAO-56 equations 21–25 and 34; sunrise and sunset at 90.833° from the zenith, the zone's offset at noon",
        sent,
        "Allen et al., FAO Irrigation and Drainage Paper 56, 1998; NOAA solar calculator",
        "docs/agronomy/light.md");

    public static How Light(IReadOnlyList<HowInput> sent) => new(
        "daily light of lamps",
        "mol = PPFD × hours × 0.0036; lamp hours = (wanted − natural) ÷ (PPFD × 0.0036), 16 at most",
        sent,
        "elementary: 3600 s an hour, a million µmol a mol; the most hours are from memory",
        "docs/agronomy/light.md");

    public static How Air(IReadOnlyList<HowInput> sent, AirFormula formula) => new(
        "moist air",
        formula == AirFormula.Fao56
            ? "es = 0.6108 exp(17.27 T ÷ (T + 237.3)); actual = es × humidity; P = 101.3 ((293 − 0.0065 z) ÷ 293)^5.26; wet bulb by the psychrometer 0.000662 P"
            : "saturation of Hyland & Wexler over ice below 0.01 °C and over water above; P = 101325 (1 − 2.25577e-5 z)^5.2559; wet bulb by equations 33 and 35",
        sent,
        formula == AirFormula.Fao56
            ? "Allen et al., FAO Irrigation and Drainage Paper 56, 1998"
            : "ASHRAE Handbook Fundamentals 2017, chapter 1",
        "docs/agronomy/air.md");

    public static How Evapotranspiration(IReadOnlyList<HowInput> sent) => new(
        "reference evapotranspiration of open grass",
        "(0.408 Δ (Rn − G) + γ 900 ÷ (T + 273.16) u2 (es − ea)) ÷ (Δ + γ (1 + 0.34 u2))",
        sent,
        "Allen et al., FAO Irrigation and Drainage Paper 56, 1998, equation 6",
        "docs/agronomy/air.md");

    public static How DegreeDays(IReadOnlyList<HowInput> sent) => new(
        "degree days",
        "area of the day's curve between the thresholds, by the method sent, with horizontal cutoff at the upper one",
        sent,
        "University of California Statewide IPM Program; simple average: Oregon State University IPPC",
        "docs/agronomy/degree-days.md");

    public static How Feed(IReadOnlyList<HowInput> sent) => new(
        "fertilizer",
        "grams = ppm × liters ÷ (1000 × fraction); a liter of concentrate × the injector's ratio, 1 when not sent",
        sent,
        "University of Massachusetts Extension",
        "docs/agronomy/feed-and-mix.md");

    public static How Mix(IReadOnlyList<HowInput> sent, double settling, double waste) => new(
        "growing mix",
        "trays × cells × cell volume × (1 + settling) × (1 + waste); amendments: rate × volume",
        [.. sent, .. Usual(sent, "settling", settling), .. Usual(sent, "waste", waste)],
        "arithmetic; the usual settling and waste are from memory",
        "docs/agronomy/feed-and-mix.md");

    public static How GerminationMinimum(IReadOnlyList<HowInput> sent, string source) => new(
        "lowest germination of a kind", "as printed", sent, source, "docs/agronomy/germination.md");

    public static How ReplicateRange(IReadOnlyList<HowInput> sent, string source) => new(
        "whether replicates agree", "best − worst against the most that is printed for their mean", sent, source, "docs/agronomy/germination.md");

    private static IEnumerable<HowInput> Usual(IReadOnlyList<HowInput> sent, string name, double value) =>
        sent.Any(input => input.Name == name) ? [] : [HowInput.Of(name, value, "0.##", "", Memory)];
}
