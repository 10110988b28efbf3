using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Batches;

/// <summary>A batch as one that might share trays looks at another.</summary>
internal sealed record Sharer(string Name, Crop Crop, int CellsPerTray, LocalDate SowOn)
{
    public LocalDate MoveOffOn => SowOn.PlusDays(Crop.PlannedHeatDays);
}

/// <summary>Which batches suit one tray: it lies on one heat, leaves it on one day and then stands on one bench.</summary>
internal static class Sharing
{
    /// <summary>Batches whose move-off days are farther apart than this do not share a tray: the early ones stretch while the
    /// late ones still need heat (common practice, no source).</summary>
    public const int MostDaysApart = 3;

    /// <summary>Why they do not; null when they do.</summary>
    public static Refusal? WhyNot(IReadOnlyCollection<Sharer> sharers)
    {
        var warmest = sharers.MaxBy(sharer => sharer.Crop.GerminationMinC)!;
        var coolest = sharers.MinBy(sharer => sharer.Crop.GerminationMaxC)!;
        if (warmest.Crop.GerminationMinC > coolest.Crop.GerminationMaxC)
        {
            return new BandsDoNotMeet(warmest.Name, warmest.Crop.GerminationMinC, coolest.Name, coolest.Crop.GerminationMaxC);
        }

        var early = sharers.MinBy(sharer => sharer.MoveOffOn)!;
        var late = sharers.MaxBy(sharer => sharer.MoveOffOn)!;
        if (Period.DaysBetween(early.MoveOffOn, late.MoveOffOn) > MostDaysApart)
        {
            return new MoveOffDaysApart(early.Name, early.MoveOffOn, late.Name, late.MoveOffOn, MostDaysApart);
        }

        var first = sharers.First();
        if (sharers.FirstOrDefault(sharer => sharer.CellsPerTray != first.CellsPerTray) is { } other)
        {
            return new OtherCells(first.Name, first.CellsPerTray, other.Name, other.CellsPerTray);
        }

        var cool = sharers.FirstOrDefault(sharer => sharer.Crop.GrowOnBand == Band.Cool);
        var warm = sharers.FirstOrDefault(sharer => sharer.Crop.GrowOnBand == Band.Warm);
        return cool is not null && warm is not null ? new GrowOnApart(warm.Name, cool.Name) : null;
    }

    public static Sharer Of(Batch batch, Crop crop, string variety, int cellsPerTray) =>
        new($"{crop.Name} ‘{variety}’", crop, cellsPerTray, batch.SowOn);
}
