namespace Nursery.Past;

/// <summary>Plans the batches of the season: what, when, and on which free spaces.</summary>
internal sealed class SeasonPlan(PastNursery nursery, string coldZone, Crew crew, int firstDay, Pcg32 random)
{
    /// <summary>Margin days between what the crop needs and what is ordered.</summary>
    private const int MarginDays = 5;

    private readonly BenchBook _book = new(nursery.Held);
    private readonly Dictionary<string, PastCrop> _crops = nursery.Crops.ToDictionary(crop => crop.Code);

    private int _number;

    public List<PastLot> Lots { get; } = [];

    public string BadLot { get; private set; } = "";

    public List<PastBatch> Make(int count)
    {
        MakeLots();
        var planned = new List<PastBatch>();
        for (var tries = 0; planned.Count < count; tries++)
        {
            if (tries == 40 * count)
            {
                throw new InvalidOperationException($"Only {planned.Count} of {count} batches found a place among the benches");
            }

            if (Draw() is { } batch)
            {
                planned.Add(batch);
            }
        }

        var sorted = planned.OrderBy(batch => batch.SowOn).ThenBy(batch => batch.Number)
            .Select((batch, index) => batch with { Number = index + 1, Order = FormattableString.Invariant($"S-{1001 + index}") }).ToList();
        foreach (var lot in Lots)
        {
            var sown = sorted.Where(batch => batch.Lot == lot.Code).Sum(batch => batch.Trays * batch.CellsPerTray * batch.SeedsPerCell);
            lot.Seeds = sown;
        }

        Lots.RemoveAll(lot => lot.Seeds == 0);
        return sorted;
    }

    /// <summary>One lot a variety, and a second for every third. One lot is bad, of a crop that is sown often in many zones.</summary>
    private void MakeLots()
    {
        foreach (var (variety, _) in nursery.Varieties)
        {
            for (var lots = random.Chance(0.33) ? 2 : 1; lots > 0; lots--)
            {
                var label = 78 + random.Below(20);
                var truth = Math.Clamp((label / 100.0) + random.Between(-0.06, 0.02), 0.5, 0.98);
                Lots.Add(new PastLot(
                    FormattableString.Invariant($"S-{2001 + Lots.Count}"), variety, label, Math.Round(truth, 4), false, firstDay - 20 - random.Below(200)));
            }
        }

        var often = nursery.Crops.OrderByDescending(crop => crop.MaxC - crop.MinC).ThenBy(crop => crop.Code, StringComparer.Ordinal)
            .Take(6).Select(crop => crop.Code).ToHashSet();
        var varieties = nursery.Varieties.Where(variety => often.Contains(variety.Crop)).Select(variety => variety.Code).ToHashSet();
        var bad = random.OneOf(Lots.Where(lot => varieties.Contains(lot.Variety)).ToList());
        BadLot = bad.Code;
        Lots[Lots.IndexOf(bad)] = bad with { LabelPercent = 90, Viability = 0.42, IsBad = true };
    }

    private PastBatch? Draw()
    {
        // The bad lot was a large one: it is sown again and again.
        var lot = random.Chance(0.03) ? Lots.Single(row => row.IsBad) : random.OneOf(Lots);
        var crop = _crops[nursery.Varieties.Single(variety => variety.Code == lot.Variety).Crop];
        var life = crop.DaysToReady + MarginDays;
        var latest = -life - 3;
        if (latest <= firstDay + 1)
        {
            return null;
        }

        var sowOn = firstDay + 1 + random.Below(latest - firstDay - 1);
        var trays = 2 + random.Below(9);
        return crew.Comes(sowOn) ? Place(lot, crop, trays, sowOn, sowOn + life) : null;
    }

    private PastBatch? Place(PastLot lot, PastCrop crop, int trays, int sowOn, int orderedOn)
    {
        var off = sowOn + crop.HeatDays;
        var hardenOn = Math.Max(off + 3, orderedOn - crop.HardeningDays);

        var heat = Zones(crop).Select(zone => (zone.Zone.Code,
            Place: _book.Find(zone.Bench.Code, zone.Zone.FirstSpace, zone.Zone.Spaces, trays, sowOn, off))).FirstOrDefault(found => found.Place is not null);
        var growing = Benches(crop.GrowOn, trays, off, hardenOn);
        var hardening = Benches(PastUse.Hardening, trays, hardenOn, orderedOn + 1);
        if (heat.Place is null || growing is null || hardening is null)
        {
            return null;
        }

        _book.Take(heat.Place);
        _book.Take(growing);
        _book.Take(hardening);
        var cells = trays * crop.CellsPerTray;
        var stand = 1 - Math.Pow(1 - (lot.LabelPercent / 100.0), crop.SeedsPerCell);
        return new PastBatch(
            _number++, (sowOn - firstDay) / SeasonMaker.CohortDays, lot.Variety, crop.Code, lot.Code, trays, crop.CellsPerTray, crop.SeedsPerCell, sowOn, orderedOn,
            "", random.OneOf(nursery.Customers), Math.Max(1, (int)(cells * stand * random.Between(0.7, 0.85))),
            heat.Place, growing, hardening, heat.Code);
    }

    private List<(PastBench Bench, PastZone Zone)> Zones(PastCrop crop)
    {
        var suit = nursery.Benches.SelectMany(bench => bench.Zones.Select(zone => (Bench: bench, Zone: zone)))
            .Where(row => row.Zone.SetpointC >= crop.MinC && row.Zone.SetpointC <= crop.MaxC)
            .OrderBy(row => Math.Round(Math.Abs(row.Zone.SetpointC - crop.OptimumC) / 3)).ThenBy(_ => random.Next()).Take(4).ToList();
        if (random.Chance(0.5))
        {
            suit = [.. suit.OrderBy(row => row.Zone.Code != coldZone)];
        }

        return suit;
    }

    private PastHeld? Benches(PastUse use, int trays, int from, int to) => nursery.Benches.Where(bench => bench.Use == use)
        .Select(bench => _book.Find(bench.Code, 1, bench.Spaces, trays, from, to)).FirstOrDefault(found => found is not null);
}
