using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Scores of many forecasts by stratum, ours against those of forecasters who know less or more.</summary>
internal sealed class ScoreTable
{
    private readonly List<(string[] Strata, ForecastScore Ours, Dictionary<string, double> Others)> _rows = [];

    public int Count => _rows.Count;

    public void Add(string[] strata, ForecastScore ours, Dictionary<string, double> others)
    {
        lock (_rows)
        {
            _rows.Add((strata, ours, others));
        }
    }

    public IEnumerable<string> Strata => _rows.SelectMany(row => row.Strata).Distinct().Order(StringComparer.Ordinal);

    public int In(string stratum) => Of(stratum).Count;

    public double Coverage(string stratum = "") => Of(stratum).Average(row => row.Ours.Within ? 1d : 0);

    public double StandCoverage(string stratum = "") => Of(stratum).Average(row => row.Ours.StandWithin ? 1d : 0);

    /// <summary>Mean score of ours ÷ that of the other forecaster.</summary>
    public double Against(string other, string stratum = "") => Of(stratum).Sum(row => row.Ours.Crps) / Of(stratum).Sum(row => row.Others[other]);

    public void Write(ITestOutputHelper output)
    {
        foreach (var stratum in Strata.Prepend(""))
        {
            var against = string.Join(", ", _rows[0].Others.Keys.Select(other => FormattableString.Invariant($"{Against(other, stratum):0.00} × {other}")));
            output.WriteLine(FormattableString.Invariant(
                $"{(stratum.Length == 0 ? "all" : stratum)}: {In(stratum)} forecasts, within {Coverage(stratum):P1}, stand {StandCoverage(stratum):P1}, score {100 * Of(stratum).Average(row => row.Ours.Crps):0.00} points, {against}"));
        }
    }

    private List<(string[] Strata, ForecastScore Ours, Dictionary<string, double> Others)> Of(string stratum) =>
        stratum.Length == 0 ? _rows : _rows.Where(row => row.Strata.Contains(stratum)).ToList();
}
