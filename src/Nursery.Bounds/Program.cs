using System.Diagnostics;
using System.Globalization;
using Google.OrTools.LinearSolver;
using Nursery.Bounds;
using Nursery.Planning;
using Nursery.Planning.Search;

// usage: Nursery.Bounds PROBLEM.json lp|mip SECONDS [--no-cuts]
// Prints {"bound":…,"how":…,"seconds":…}: cents no plan of the problem can be cheaper than, null when it was not found in time.
// In a process of its own: the solver is native, and what it does not like ends the process.
if (args.Length < 3 || args[1] is not ("lp" or "mip")
    || !double.TryParse(args[2], NumberStyles.Float, CultureInfo.InvariantCulture, out var seconds) || seconds is <= 0 or > 86400)
{
    Console.Error.WriteLine("usage: Nursery.Bounds PROBLEM.json lp|mip SECONDS (above 0 to 86400) [--no-cuts]");
    return 2;
}

var problem = PlanningJson.ReadProblem(await File.ReadAllTextAsync(args[0]));
var watch = Stopwatch.StartNew();
var whole = args[1] == "mip";
var cuts = !args.Contains("--no-cuts");
using var solver = Solver.CreateSolver(whole ? "SCIP" : "GLOP");
_ = new Relaxation(new SeasonModel(problem, problem.Batches), solver, whole, cuts);
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
Console.WriteLine(string.Create(
    CultureInfo.InvariantCulture,
    $"{{\"bound\":{cents},\"how\":\"{(whole ? "SCIP" : "GLOP")}{(cuts ? " with cuts" : "")}\",\"status\":\"{status}\",\"seconds\":{watch.Elapsed.TotalSeconds:0.0}}}"));
return 0;
