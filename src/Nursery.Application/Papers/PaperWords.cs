using System.Globalization;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Printing;

namespace Nursery.Application.Papers;

/// <summary>Days, numbers and stages as they are written on paper.</summary>
internal static class PaperWords
{
    /// <summary>"3 March 2027".</summary>
    public static string Day(LocalDate day) => day.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);

    /// <summary>"Wednesday, 3 March 2027".</summary>
    public static string WeekDay(LocalDate day) => day.ToString("dddd, d MMMM uuuu", CultureInfo.InvariantCulture);

    public static string Count(int number, string one, string many) =>
        string.Create(CultureInfo.InvariantCulture, $"{number:N0} {(number == 1 ? one : many)}");

    public static string Trays(int trays) => Count(trays, "tray", "trays");

    /// <summary>"spaces 1–12"; "space not said" for trays nobody said the spaces of.</summary>
    public static string Spaces(SpaceRun? spaces) => spaces is { } run ? (run.Count == 1 ? "space " : "spaces ") + run : "space not said";

    /// <summary>"12 trays", or "trays 3–14 of 18" when they are a part of their set.</summary>
    public static string Part(SpaceRun trays, int traysInSet) => trays.Count == traysInSet
        ? Trays(trays.Count)
        : $"{(trays.Count == 1 ? "tray" : "trays")} {trays} of {traysInSet.ToString(CultureInfo.InvariantCulture)}";

    /// <summary>Null for plants that are gone: they have no tag and stand nowhere.</summary>
    public static StagePattern? Pattern(BatchStage stage) => stage switch
    {
        BatchStage.Planned => StagePattern.Planned,
        BatchStage.Sown => StagePattern.Sown,
        BatchStage.Emerging => StagePattern.Emerging,
        BatchStage.GrowingOn => StagePattern.GrowingOn,
        BatchStage.HardeningOff => StagePattern.HardeningOff,
        BatchStage.Ready => StagePattern.Ready,
        BatchStage.HandedOver or BatchStage.Discarded => null,
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "a stage without a pattern"),
    };
}
