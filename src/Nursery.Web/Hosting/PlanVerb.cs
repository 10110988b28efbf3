using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Application.Plans;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Hosting;

/// <summary>plan: a plan for a problem in a file, without a database.</summary>
internal static class PlanVerb
{
    private const int Refused = 2;
    private const string Usage = "Nursery.Web plan --in problem.json --out plan.json [--seconds N | --iterations N] [--seed N] [--bound]";

    public static async Task<int> RunAsync(string[] args)
    {
        var bounded = args.Contains("--bound");
        var configuration = new ConfigurationBuilder().AddCommandLine([.. args.Where(arg => arg != "--bound")]).Build();
        if (configuration["in"] is not { } from || configuration["out"] is not { } to
            || Number<double>(configuration, "seconds", out var seconds) is false
            || Number<long>(configuration, "iterations", out var iterations) is false
            || Number<ulong>(configuration, "seed", out var seed) is false)
        {
            await Console.Error.WriteLineAsync(Usage);
            return Refused;
        }

        using var stop = new CancellationTokenSource();
        Console.CancelKeyPress += (_, pressed) =>
        {
            // Not the end of the process: the best plan so far is still written.
            pressed.Cancel = true;
            stop.Cancel();
        };
        try
        {
            var request = new PlanFileRequest(await File.ReadAllTextAsync(from), seconds, iterations, seed ?? 1);
            var bounding = bounded ? PlanFromFile.BoundAsync(request, new BoundsProgram(NullLogger<BoundsProgram>.Instance), stop.Token) : null;
            var plan = PlanFromFile.Handle(request, Tell, stop.Token);
            await File.WriteAllTextAsync(to, plan.Json);
            foreach (var remark in plan.Remarks)
            {
                Console.WriteLine(remark);
            }

            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"{plan.Placed} batches have a place, {plan.Unplaced} have none; it costs {plan.Cost / 100m:0.00}."));
            if (bounding is not null)
            {
                Console.WriteLine(await bounding is { } bound && bound <= plan.Cost
                    ? BoundWords.Of(plan.Cost, bound) : "How cheap a plan could be at best was not found.");
            }

            return 0;
        }
        catch (Refusal refusal)
        {
            await Console.Error.WriteLineAsync(refusal.Message);
            return Refused;
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException)
        {
            await Console.Error.WriteLineAsync(failed.Message);
            return Refused;
        }
    }

    private static void Tell(double done, long best) => Console.Error.Write(string.Create(
        CultureInfo.InvariantCulture, $"\r{done * 100:0} %, best so far {best / 100m:0.00}{(done >= 1 ? "\n" : "")}"));

    /// <returns>Whether it is a number or not there.</returns>
    private static bool Number<T>(IConfiguration configuration, string name, out T? number)
        where T : struct, IParsable<T>
    {
        number = null;
        if (configuration[name] is not { } text)
        {
            return true;
        }

        var parsed = T.TryParse(text, CultureInfo.InvariantCulture, out var value);
        number = parsed ? value : null;
        return parsed;
    }
}
