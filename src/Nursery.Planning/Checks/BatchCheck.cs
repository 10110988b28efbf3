using System.Globalization;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Checks;

/// <summary>Which batches can be planned in what is left of a problem; the others get the reason.</summary>
internal sealed class BatchCheck(Problem usable, List<Remark> remarks, List<Unplaced> setAside)
{
    private readonly Dictionary<string, Crop> _crops = usable.Crops.ToDictionary(crop => crop.Id);

    public List<Batch> Usable(IEnumerable<Batch> batches) => [.. batches.Where(Check)];

    private bool Check(Batch batch)
    {
        var field = $"batches[{batch.Id}]";
        if (!_crops.TryGetValue(batch.Crop, out var crop))
        {
            return Aside(batch, $"{field}.crop", $"\"{batch.Crop}\"", "a crop of the problem is");
        }

        if (batch.Trays is < 1 or > ProblemCheck.MostSpaces)
        {
            return Aside(batch, $"{field}.trays", Text(batch.Trays), $"1 to {ProblemCheck.MostSpaces} is");
        }

        if (batch.SpacesBefore < 1 || batch.SpacesSpaced(crop) < batch.SpacesBefore)
        {
            return Aside(batch, $"{field}.spaces", $"{batch.SpacesBefore}, {batch.SpacesSpaced(crop)} after spacing", "1 or more, and not fewer after spacing, is");
        }

        if (batch.FirstReady > batch.LastReady || batch.LastOnTime > batch.LastReady || batch.FirstReady > batch.Due || batch.Due > batch.LastOnTime)
        {
            return Aside(
                batch, $"{field}.earliest", $"{Text(batch.FirstReady)}, due {Text(batch.Due)}, latest {Text(batch.LastOnTime)}, last late {Text(batch.LastReady)}",
                "earliest, due, latest, last late in this order is");
        }

        return FitsAtAll(batch, crop, field) && IsInTime(batch, crop);
    }

    private bool FitsAtAll(Batch batch, Crop crop, string field)
    {
        var setpoints = crop.Table.Select(row => row.SetpointF).ToHashSet();
        var zones = usable.Zones.Where(zone => zone.SetpointsF.Any(setpoints.Contains)).ToList();
        if (zones.Count == 0)
        {
            setAside.Add(new Unplaced(
                batch.Id, batch.Trays, WhyNot.NoZoneSuits,
                $"No zone may be set to what {crop.Id} needs: {string.Join(", ", setpoints.Order().Select(setpoint => Text(setpoint)))} °F."));
            return false;
        }

        var benches = usable.Benches.Where(bench =>
            (bench.Use == BenchUse.Warm && crop.WarmDays != null) || (bench.Use == BenchUse.Cool && crop.CoolDays != null)).ToList();
        if (benches.Count == 0)
        {
            setAside.Add(new Unplaced(
                batch.Id, batch.Trays, WhyNot.NoBenchOfBand,
                $"There is no {(crop.WarmDays == null ? "cool" : crop.CoolDays == null ? "warm" : "warm or cool")} bench for {crop.Id}."));
            return false;
        }

        var most = Math.Min(
            Math.Max(Sum(benches, BenchUse.Warm), Sum(benches, BenchUse.Cool)), usable.HardeningSpaces);
        var heat = zones.Sum(zone => (long)zone.Spaces);
        if (batch.SpacesBefore > heat || batch.SpacesSpaced(crop) > (usable.HardeningDays == 0 ? long.MaxValue : most))
        {
            return Aside(
                batch, $"{field}.trays", Text(batch.Trays),
                "what the nursery holds is",
                $"It needs {batch.SpacesBefore} spaces on heat that suits it and {batch.SpacesSpaced(crop)} on benches of one band and in hardening; the nursery has {heat} and {most}.");
        }

        return true;
    }

    private static long Sum(List<Bench> benches, BenchUse use) => benches.Where(bench => bench.Use == use).Sum(bench => (long)bench.Spaces);

    private bool IsInTime(Batch batch, Crop crop)
    {
        var growOn = Math.Min(crop.WarmDays ?? int.MaxValue, crop.CoolDays ?? int.MaxValue);
        var heat = crop.Table.Min(row => ModeTable.DaysOnHeat(row.ProgressPerDay));
        var sowFrom = batch.SowFrom is { } day && day > usable.Start ? day : usable.Start;
        var first = sowFrom.DayNumber + heat + growOn + usable.HardeningDays;
        if (Math.Min(batch.LastReady.DayNumber, usable.End.DayNumber) < first)
        {
            setAside.Add(new Unplaced(
                batch.Id, batch.Trays, WhyNot.WindowPast,
                $"Ready by {Text(batch.LastReady)} is not possible: sown on {Text(sowFrom)} it is ready on {Text(DateOnly.FromDayNumber(first))} at the soonest, and the season ends on {Text(usable.End)}."));
            return false;
        }

        return true;
    }

    /// <param name="why">In words of the nursery, where it is not the problem that is wrong but the batch that is too large for it.</param>
    private bool Aside(Batch batch, string field, string value, string allowed, string? why = null)
    {
        var remark = new Remark(field, value, allowed + "; the batch is not planned");
        remarks.Add(remark);
        setAside.Add(new Unplaced(batch.Id, Math.Max(0, batch.Trays), WhyNot.SetAside, why ?? remark.Sentence));
        return false;
    }

    private static string Text(IFormattable value) => ProblemCheck.Text(value);
}
