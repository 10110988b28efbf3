using System.Diagnostics;
using System.Globalization;
using Google.OrTools.LinearSolver;
using Nursery.Planning.Search;

namespace Nursery.Bounds;

/// <summary>Solves the relaxation and writes what it found, a line each: {"bound":…,"how":…,"status":…,"seconds":…}. A bound is in cents;
/// null: none was found in time. The last line is the best.</summary>
/// <param name="seconds">For the solver; making the relaxation comes on top.</param>
internal sealed class LowerBound(SeasonModel model, bool cuts, double seconds)
{
    private readonly Stopwatch _watch = Stopwatch.StartNew();

    /// <param name="whole">Zones as whole numbers too. The linear program comes first then: it is soon solved, and whoever cannot wait for
    /// the other has its bound.</param>
    public void Write(TextWriter output, bool whole)
    {
        var least = Solve(output, whole: false, 0);
        if (whole)
        {
            _ = Solve(output, whole: true, least);
        }
    }

    private double Solve(TextWriter output, bool whole, double least)
    {
        using var solver = Solver.CreateSolver(whole ? "SCIP" : "GLOP");
        _ = new Relaxation(model, solver, whole, cuts);
        solver.SetTimeLimit((long)Math.Max(1, (seconds - _watch.Elapsed.TotalSeconds) * 1000));
        var status = solver.Solve();

        // A linear program cut short says nothing; an integer one has its best bound at any time.
        var found = status switch
        {
            Solver.ResultStatus.OPTIMAL when !whole => solver.Objective().Value(),
            Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE or Solver.ResultStatus.NOT_SOLVED when whole => solver.Objective().BestBound(),
            _ => 0,
        };
        var bound = Math.Max(found, least);

        // Plans cost whole cents; a solver's last digits are its own.
        var cents = bound > 0.5 ? Math.Ceiling((bound * (1 - 1e-7)) - 1e-6).ToString("0", CultureInfo.InvariantCulture) : "null";
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{{\"bound\":{cents},\"how\":\"{(whole ? "SCIP" : "GLOP")}{(cuts ? " with cuts" : "")}\",\"status\":\"{status}\",\"seconds\":{_watch.Elapsed.TotalSeconds:0.0}}}"));
        output.Flush();
        return bound;
    }
}
