using System.Diagnostics;
using System.Globalization;
using Google.OrTools.LinearSolver;
using Nursery.Planning.Search;

namespace Nursery.Bounds;

/// <summary>Solves the relaxation.</summary>
internal static class LowerBound
{
    /// <param name="whole">Zones as whole numbers.</param>
    /// <param name="seconds">For the solver; making the relaxation comes on top.</param>
    /// <returns>{"bound":…,"how":…,"status":…,"seconds":…}: cents no plan can be cheaper than, null when it was not found in time.</returns>
    public static string Of(SeasonModel model, bool whole, bool cuts, double seconds)
    {
        var watch = Stopwatch.StartNew();
        using var solver = Solver.CreateSolver(whole ? "SCIP" : "GLOP");
        _ = new Relaxation(model, solver, whole, cuts);
        solver.SetTimeLimit((long)(seconds * 1000));
        var status = solver.Solve();

        // A linear program cut short says nothing; an integer one has its best bound at any time.
        double? bound = status switch
        {
            Solver.ResultStatus.OPTIMAL when !whole => solver.Objective().Value(),
            Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE or Solver.ResultStatus.NOT_SOLVED when whole => solver.Objective().BestBound(),
            _ => null,
        };
        var cents = bound is { } found and > 0 ? Math.Floor(found * (1 - 1e-7)).ToString("0", CultureInfo.InvariantCulture) : "null";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{{\"bound\":{cents},\"how\":\"{(whole ? "SCIP" : "GLOP")}{(cuts ? " with cuts" : "")}\",\"status\":\"{status}\",\"seconds\":{watch.Elapsed.TotalSeconds:0.0}}}");
    }
}
