using Nursery.Planning.Problems;

namespace Nursery.Planning.Search;

/// <summary>Every way a batch can be timed: ready day, setpoint, band. What each costs by itself never changes, so the modes of a
/// batch lie sorted by it, in flat arrays.</summary>
internal sealed class ModeTable
{
    /// <summary>Modes of batch b: from Start[b] to Start[b + 1].</summary>
    public readonly int[] Start;
    public readonly int[] Cost;
    public readonly short[] Sow;
    public readonly short[] Emerge;
    public readonly short[] Ready;
    public readonly byte[] Level;

    /// <summary>Which of the batch's (ready day, band) pairs: modes with one pair stand on benches for the same days.</summary>
    public readonly byte[] Stay;
    public readonly BenchUse[] Band;

    /// <summary>Most (ready day, band) pairs of a batch.</summary>
    public readonly int MostStays;

    public ModeTable(Problem problem, IReadOnlyList<Batch> batches, IReadOnlyDictionary<string, Crop> crops, double[] levels, bool[] bands)
    {
        Start = new int[batches.Count + 1];
        var all = new List<Mode>(batches.Count * 60);
        var prices = problem.Prices ?? Prices.Usual;
        for (var batch = 0; batch < batches.Count; batch++)
        {
            Start[batch] = all.Count;
            var modes = Of(problem, batches[batch], crops[batches[batch].Crop], prices, levels, bands);
            MostStays = Math.Max(MostStays, modes.Count == 0 ? 0 : modes.Max(mode => mode.Stay) + 1);
            all.AddRange(modes.OrderBy(mode => mode.Cost).ThenBy(mode => mode.Stay).ThenBy(mode => mode.Level));
        }

        Start[^1] = all.Count;
        Cost = [.. all.Select(mode => mode.Cost)];
        Sow = [.. all.Select(mode => (short)mode.Sow)];
        Emerge = [.. all.Select(mode => (short)mode.Emerge)];
        Ready = [.. all.Select(mode => (short)mode.Ready)];
        Level = [.. all.Select(mode => (byte)mode.Level)];
        Stay = [.. all.Select(mode => (byte)mode.Stay)];
        Band = [.. all.Select(mode => mode.Band)];
    }

    private sealed record Mode(int Cost, int Sow, int Emerge, int Ready, int Level, int Stay, BenchUse Band);

    private static List<Mode> Of(Problem problem, Batch batch, Crop crop, Prices prices, double[] levels, bool[] bands)
    {
        var modes = new List<Mode>();
        var due = problem.DayOf(batch.Due);
        var first = problem.DayOf(batch.FirstReady);
        var last = Math.Min(problem.DayOf(batch.LastReady), problem.Days);
        var sowFrom = batch.SowFrom is { } day ? Math.Max(0, problem.DayOf(day)) : 0;
        var stay = 0;
        for (var ready = first; ready <= last; ready++)
        {
            foreach (var (band, days) in new[] { (BenchUse.Warm, crop.WarmDays), (BenchUse.Cool, crop.CoolDays) })
            {
                if (days is not { } growOn || !bands[(int)band])
                {
                    continue;
                }

                var emerge = ready - problem.HardeningDays - growOn;
                var any = false;
                foreach (var row in crop.Table.Where(row => row.SetpointF >= crop.MinF && row.SetpointF <= crop.MaxF))
                {
                    var level = Array.IndexOf(levels, row.SetpointF);
                    var heat = DaysOnHeat(row.ProgressPerDay);
                    if (level < 1 || emerge - heat < sowFrom)
                    {
                        continue;
                    }

                    any = true;
                    var cost = (prices.DayOffDue * Math.Abs(ready - due) * batch.Trays)
                        + (prices.DayLate * Math.Max(0, ready - problem.DayOf(batch.LastOnTime)) * batch.Trays)
                        + (int)Math.Round(prices.DegreeOff * Math.Abs(row.SetpointF - crop.BestF) * heat * batch.Trays)
                        + (batch.Now is { } now && problem.DayOf(now.SowOn) != emerge - heat ? prices.MovedSowDay : 0);
                    modes.Add(new Mode(cost, emerge - heat, emerge, ready, level, stay, band));
                }

                stay += any ? 1 : 0;
            }
        }

        return modes;
    }

    /// <summary>Whole days on heat at a constant setpoint: the first day on which the sum of daily progress reaches 1.</summary>
    public static int DaysOnHeat(double progressPerDay) => (int)Math.Ceiling((1 / progressPerDay) - 1e-9);
}
