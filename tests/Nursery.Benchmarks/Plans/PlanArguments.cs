using System.Globalization;

namespace Nursery.Benchmarks.Plans;

/// <summary>What was asked of one run.</summary>
internal sealed record PlanArguments(
    string Size, int Seed, double Load, bool Bound, long? Steps, double? Seconds, string? ProblemFile, string? PlanFile)
{
    public const string Usage =
        "plan --size S|M|L|XL [--seed N] [--load U] [--bound] [--iterations N | --seconds N] [--problem FILE] [--plan FILE]\n"
        + "plan --table [--sizes S,M,L,XL] [--no-bound]\nplan --replan";

    /// <exception cref="ArgumentException">Something is not allowed; the message says what.</exception>
    public static PlanArguments Of(string[] args)
    {
        var (size, seed, load, bound) = ("", 1, 0.90, false);
        long? steps = null;
        double? seconds = null;
        string? problem = null, plan = null;
        for (var index = 0; index < args.Length; index++)
        {
            var name = args[index];
            if (name == "--bound")
            {
                bound = true;
                continue;
            }

            var value = index + 1 < args.Length ? args[++index] : throw new ArgumentException($"{name}: a value is missing.");
            switch (name)
            {
                case "--size": size = value; break;
                case "--seed": seed = Number<int>(name, value, 0, 1_000_000); break;
                case "--load": load = Number(name, value, 0.1, 10.0); break;
                case "--iterations": steps = Number(name, value, 0L, 1_000_000_000_000); break;
                case "--seconds": seconds = Number(name, value, 0.1, 86400.0); break;
                case "--problem": problem = value; break;
                case "--plan": plan = value; break;
                default: throw new ArgumentException($"{name} is not allowed.");
            }
        }

        _ = PlanSize.Of(size);
        return new PlanArguments(size, seed, load, bound, steps, seconds, problem, plan);
    }

    private static T Number<T>(string name, string text, T least, T most)
        where T : struct, IParsable<T>, IComparable<T> =>
        T.TryParse(text, CultureInfo.InvariantCulture, out var value) && value.CompareTo(least) >= 0 && value.CompareTo(most) <= 0
            ? value
            : throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{name}: \"{text}\" is not allowed; {least} to {most} is."));
}
