namespace Nursery.Agronomy;

/// <summary>How long hand work takes, seconds a tray (a cell for thinning and patching). Those of the bedding plant budget are Rutgers Cooperative
/// Extension's range over container sizes; each of the others is marked 'from memory'. Every one is a planning figure, to be corrected by
/// what people at the site take.</summary>
/// <param name="LowSeconds">The quick end.</param>
/// <param name="HighSeconds">The slow end.</param>
/// <param name="Source">Where it is from, in words.</param>
public sealed record WorkTime(decimal LowSeconds, decimal HighSeconds, string Source)
{
    private const string Budget = "Rutgers Cooperative Extension, bedding plant budget";
    private const string Memory = "from memory";

    /// <summary>The middle of the range: what is planned with.</summary>
    public decimal Seconds => (LowSeconds + HighSeconds) / 2;

    public static WorkTime Of(HandWork work) => work switch
    {
        HandWork.FillTray => new(22, 49, Budget),
        HandWork.SowTray => new(81, 162, Budget),
        HandWork.CarryTray => new(14, 40, Budget),
        HandWork.WaterTray => new(14, 14, Budget),
        HandWork.CarryOutTray => new(25, 67, Budget),
        HandWork.PrickOutTray => new(76, 209, Budget),
        HandWork.ThinCell => new(2, 4, Memory),
        HandWork.PatchCell => new(10, 10, Memory),
        HandWork.LookAtTray => new(2, 4, Memory),
        HandWork.CheckTray => new(10, 30, Memory),
        HandWork.ScoutTray => new(5, 15, Memory),
        HandWork.ClearTray => new(10, 30, Memory),
        _ => throw new ArgumentOutOfRangeException(nameof(work), work, "hand work without a time"),
    };
}
