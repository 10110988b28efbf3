namespace Nursery.Past;

/// <summary>The true temperatures: the zones follow their setpoints with an error of their own, and the heating fails now and then.</summary>
internal sealed class Climate
{
    private readonly int _firstDay;
    private readonly Dictionary<string, double[]> _media = [];

    public Climate(PastNursery nursery, string coldZone, double coldBy, int firstDay, Pcg32 random)
    {
        _firstDay = firstDay;
        Dips = [.. Enumerable.Range(0, 4).Select(index => new DipTruth(
            firstDay + 20 + (index * 42) + random.Below(20), 1 + random.Below(3), Math.Round(random.Between(5, 9), 2)))];
        foreach (var zone in nursery.Benches.SelectMany(bench => bench.Zones))
        {
            var offset = zone.Code == coldZone ? -coldBy : random.Between(-0.6, 0.6);
            _media[zone.Code] = [.. Enumerable.Range(firstDay, -firstDay + 1).Select(day => Math.Round(
                zone.SetpointC + offset + (0.4 * random.Normal()) - Dips.Where(dip => day >= dip.From && day < dip.From + dip.Days).Sum(dip => dip.ByC),
                2))];
        }
    }

    public IReadOnlyList<DipTruth> Dips { get; }

    public IReadOnlyDictionary<string, IReadOnlyList<double>> Media =>
        _media.ToDictionary(zone => zone.Key, zone => (IReadOnlyList<double>)zone.Value);

    public double OnHeat(string zone, int day) => _media[zone][Math.Clamp(day - _firstDay, 0, -_firstDay)];

    /// <summary>Off the heat trays take the air of their house; a cool and a warm one, both invented.</summary>
    public static double OffHeat(PastUse band) => band == PastUse.Cool ? 16 : 20;
}
