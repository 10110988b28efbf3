using System.Text.RegularExpressions;
using Nursery.Application.Benches;
using Nursery.Domain;
using Nursery.Domain.Batches;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>The trays that stand or move together on one run of spaces; several batches when they share trays.</summary>
public sealed partial record TraySetOnBench(string BenchCode, SpaceRun? Run, PlanAgainstFact Fact, IReadOnlyList<BenchTrays> Batches)
{
    /// <summary>Codes of other tray sets on the same spaces.</summary>
    public IReadOnlyList<string> SharedWith { get; init; } = [];

    public string Code => Batches[0].TraySetCode;

    /// <summary>The code without its check sign (EG-031, EG-031/2 for a second tray set, EG-031 +2 when two more batches share it):
    /// what fits on a plate.</summary>
    public string ShortCode => CodeEnd().Replace(Code, end => end.Groups[1].Value == "1" ? "" : "/" + end.Groups[1].Value)
        + (Batches.Count > 1 ? $" +{Batches.Count - 1}" : "");

    /// <summary>The least advanced of its batches: the one that still needs the most.</summary>
    public BatchStage Stage => Batches.Min(batch => batch.Stage);

    public int Trays => Batches[0].Trays;

    /// <summary>What the plan holds for them; null when they only stand here.</summary>
    public Guid? ReservationId => Batches[0].ReservationId;

    /// <summary>What is wrong, in a word or two; null when nothing is.</summary>
    public string? Trouble => (SharedWith.Count > 0, Fact) switch
    {
        (true, _) => "double use",
        (_, PlanAgainstFact.StillOnHeat) => "still on heat",
        (_, PlanAgainstFact.NotByPlan) => "not by plan",
        _ => null,
    };

    public TraySetKey Key => new(BenchCode, Code, Run?.First, Fact);

    [GeneratedRegex("-[0-9A-Z*]-([0-9]+)$", RegexOptions.CultureInvariant)]
    private static partial Regex CodeEnd();
}
