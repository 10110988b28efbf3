using Nursery.Domain.Refusals;
using Nursery.Planning;

namespace Nursery.Application.Plans;

/// <summary>A problem as JSON and how long to search.</summary>
/// <param name="Json">As docs/planning.md has it.</param>
/// <param name="Seconds">Above 0 to 86,400; null when the iterations decide.</param>
/// <param name="Iterations">0 to 10^12; null when the seconds decide.</param>
/// <param name="Seed">Of the random source.</param>
public sealed record PlanFileRequest(string Json, double? Seconds, long? Iterations, ulong Seed);

/// <summary>A plan as JSON, and what to say about it.</summary>
/// <param name="Cost">Cents, as docs/planning.md counts them.</param>
public sealed record PlanFile(string Json, long Cost, int Placed, int Unplaced, IReadOnlyList<string> Remarks);

/// <summary>Plans a problem that lies in a file. For whoever has the machine: no database, no actor.</summary>
public static class PlanFromFile
{
    private const double UsualSeconds = 30;

    /// <exception cref="Malformed">It is no such JSON, or no season.</exception>
    /// <exception cref="InvalidFields">The budget is not allowed.</exception>
    public static PlanFile Handle(PlanFileRequest request, Action<double, long>? progress = null, CancellationToken cancellation = default)
    {
        var effort = EffortOf(request);
        try
        {
            var planned = Planner.Plan(
                PlanningJson.ReadProblem(request.Json), effort,
                progress is null ? null : told => progress(told.Done, told.BestCost), cancellation);
            return new PlanFile(
                PlanningJson.Write(planned.Plan), planned.Plan.Score.Cost, planned.Plan.Batches.Count, planned.Plan.Unplaced.Count,
                planned.Plan.Remarks ?? []);
        }
        catch (ProblemUnreadable unreadable)
        {
            throw new Malformed(unreadable.Message);
        }
    }

    /// <summary>What no plan of it can cost less than, worked out beside <see cref="Handle"/> in as many seconds, a minute when iterations
    /// decide; whoever asks waits for it.</summary>
    /// <returns>Cents; null when none was found, also of what is no problem.</returns>
    public static async Task<long?> BoundAsync(PlanFileRequest request, BoundsProgram bounds, CancellationToken cancellation = default)
    {
        try
        {
            var seconds = request.Iterations is null ? request.Seconds ?? UsualSeconds : 60;
            return await bounds.BoundAsync(
                request.Json, PlanningJson.ReadProblem(request.Json).Batches.Count, TimeSpan.FromSeconds(Math.Clamp(seconds, 0, 86400)), cancellation);
        }
        catch (ProblemUnreadable)
        {
            return null;
        }
    }

    private static Effort EffortOf(PlanFileRequest request)
    {
        if (request is { Seconds: not null, Iterations: not null })
        {
            throw new InvalidFields("iterations", $"{request.Iterations}", "either seconds or iterations");
        }

        if (request.Seconds is { } seconds and not (> 0 and <= 86400))
        {
            throw new InvalidFields("seconds", $"{seconds}", "above 0 to 86400");
        }

        if (request.Iterations is < 0 or > 1_000_000_000_000)
        {
            throw new InvalidFields("iterations", $"{request.Iterations}", "0 to 1000000000000");
        }

        return request.Iterations is { } iterations
            ? new Effort(iterations, Seed: request.Seed)
            : Effort.Seconds(request.Seconds ?? UsualSeconds, request.Seed);
    }
}
