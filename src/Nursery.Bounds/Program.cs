using System.Globalization;
using Nursery.Bounds;
using Nursery.Planning;
using Nursery.Planning.Checks;
using Nursery.Planning.Search;

// In a process of its own: the solver is native, and what it does not like ends the process.
const string Usage = "usage: Nursery.Bounds PROBLEM.json lp|mip SECONDS (above 0 to 86400) [--no-cuts] [--until-input-ends]";
if (args.Length < 3 || args[1] is not ("lp" or "mip")
    || !double.TryParse(args[2], NumberStyles.Float, CultureInfo.InvariantCulture, out var seconds) || seconds is not (> 0 and <= 86400))
{
    Console.Error.WriteLine(Usage);
    return 2;
}

if (args.Contains("--until-input-ends"))
{
    OrphanWatch.Start();
}

// What differs from the plan of today is not part of a plan's cost, so it must not be part of the bound.
var read = PlanningJson.ReadProblem(await File.ReadAllTextAsync(args[0]));
var usable = ProblemCheck.Of(read with { Batches = [.. read.Batches.Select(batch => batch with { Now = null })] }).Usable;
new LowerBound(new SeasonModel(usable, usable.Batches), cuts: !args.Contains("--no-cuts"), seconds).Write(Console.Out, whole: args[1] == "mip");
return 0;
