using System.Text.Json;

namespace Nursery.Benchmarks.Plans;

/// <summary>Plans of invented nurseries against a bound, first-fit and the bars; the last line is the JSON object of the run.</summary>
internal static class PlanBenchmark
{
    public static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static int Run(string[] args)
    {
        try
        {
            return args switch
            {
                ["--table", .. var rest] => PlanTable.Run(rest),
                ["--replan"] => ReplanBenchmark.Run(),
                _ => One(PlanArguments.Of(args)),
            };
        }
        catch (ArgumentException wrong)
        {
            Console.Error.WriteLine($"{wrong.Message}\n{PlanArguments.Usage}");
            return 2;
        }
    }

    private static int One(PlanArguments asked)
    {
        var run = PlanRun.Of(asked);
        Console.WriteLine(JsonSerializer.Serialize(run, Json));
        return run.Violations == 0 ? 0 : 1;
    }
}
