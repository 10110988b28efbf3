using Nursery.Agronomy;

namespace Nursery.Domain.Tasks;

/// <summary>Planned minutes of a task, from the times of the hand work it is made of.</summary>
public static class TaskMinutes
{
    /// <summary>Share of the cells that have a spare seedling to take out (common practice, no source).</summary>
    private const decimal ShareToThin = 0.5m;

    /// <param name="kind">The kind of task.</param>
    /// <param name="trays">Trays it is about, 0 or more; of a bench or house, the trays standing there.</param>
    /// <param name="cells">Cells of the batch, 0 or more; thinning goes by them.</param>
    /// <returns>Minutes, not rounded.</returns>
    public static decimal Of(TaskKind kind, int trays, int cells)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(trays);
        ArgumentOutOfRangeException.ThrowIfNegative(cells);
        return kind == TaskKind.Thin
            ? WorkTime.Of(HandWork.ThinCell).Seconds * cells * ShareToThin / 60
            : Work(kind).Sum(work => WorkTime.Of(work).Seconds) * trays / 60;
    }

    /// <summary>What a task of whole trays is made of; a first watering is gone over twice, to run-through.</summary>
    private static HandWork[] Work(TaskKind kind) => kind switch
    {
        TaskKind.Sow => [HandWork.FillTray, HandWork.SowTray, HandWork.CarryTray],
        TaskKind.FirstWatering => [HandWork.WaterTray, HandWork.WaterTray],
        TaskKind.Look => [HandWork.LookAtTray],
        TaskKind.Water or TaskKind.Feed => [HandWork.WaterTray],
        TaskKind.EmergenceCheck or TaskKind.ReadyCheck => [HandWork.CheckTray],
        TaskKind.MoveOffHeat or TaskKind.Spacing or TaskKind.HardenOff => [HandWork.CarryTray],
        TaskKind.HandOver => [HandWork.CarryOutTray],
        TaskKind.ClearBench => [HandWork.ClearTray],
        TaskKind.Scout => [HandWork.ScoutTray],
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a task without planned minutes"),
    };
}
