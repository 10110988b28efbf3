using Nursery.Agronomy;
using Nursery.Domain.HeatZones;

namespace Nursery.Application.Plans;

/// <summary>The setpoints a plan may give zones, in whole and tenth °F as the planner counts, and the °C of the product for each.</summary>
internal sealed class ZoneLevels
{
    /// <summary>60 to 90 °F in fives: what thermostats of germination benches are usually set to (common practice, no source).</summary>
    private static readonly double[] Usual = [60, 65, 70, 75, 80, 85, 90];

    /// <summary>The planner knows 30 levels; what a zone is set to now comes before the usual ones.</summary>
    private const int MostOwn = 22;

    private readonly Dictionary<double, decimal> _celsius = [];

    /// <param name="programs">Of the site's zones.</param>
    /// <param name="from">First day that matters.</param>
    /// <param name="to">First day no longer.</param>
    /// <param name="tried">Setpoints that are tried out, °F.</param>
    public ZoneLevels(IEnumerable<ZoneProgram> programs, NodaTime.LocalDate from, NodaTime.LocalDate to, IReadOnlyCollection<double>? tried = null)
    {
        foreach (var setpoint in Usual)
        {
            _celsius[setpoint] = Math.Round(Temperature.FromFahrenheit((decimal)setpoint).Celsius, 2);
        }

        foreach (var setpoint in (tried ?? []).Where(setpoint => !_celsius.ContainsKey(setpoint)).Distinct().Order().Take(MostOwn).ToList())
        {
            _celsius[setpoint] = C(setpoint);
        }

        foreach (var setpointC in programs.SelectMany(program => program.Over(from, to)).Distinct().Order().Take(MostOwn + Usual.Length - _celsius.Count))
        {
            _celsius[F(setpointC)] = setpointC;
        }
    }

    public IReadOnlyCollection<double> All => _celsius.Keys;

    /// <summary>What any zone may have, and what this one has now.</summary>
    public IReadOnlyList<double> Of(ZoneProgram program, NodaTime.LocalDate from, NodaTime.LocalDate to) =>
        [.. Usual.Concat(program.Over(from, to).Select(F).Where(_celsius.ContainsKey)).Distinct().Order()];

    public decimal Celsius(double setpointF) => CelsiusOf(setpointF, _celsius);

    /// <summary>°F to a tenth, so that 26.67 °C is 80 °F again.</summary>
    public static double F(decimal celsius) => (double)Math.Round(new Temperature(celsius).Fahrenheit, 1);

    /// <summary>The °C that stand for a level of a plan, as the database stores them.</summary>
    public static decimal C(double setpointF) => Math.Round(Temperature.FromFahrenheit((decimal)setpointF).Celsius, 2);

    private static decimal CelsiusOf(double setpointF, Dictionary<double, decimal> known) =>
        known.TryGetValue(setpointF, out var celsius) ? celsius : C(setpointF);
}
