namespace Nursery.Past;

/// <summary>Invents a season for a nursery. The same seed and nursery give the same season, to the last digit.</summary>
public static class SeasonMaker
{
    /// <summary>Days of history: more than 26 weeks.</summary>
    public const int Days = 203;

    /// <summary>Days of sowings that are planned together.</summary>
    public const int CohortDays = 7;

    private const int BatchesWanted = 270;
    private const double ColdBy = 5;

    /// <exception cref="InvalidOperationException">The benches have no room for a season.</exception>
    public static PastSeason Make(PastNursery nursery, ulong seed)
    {
        var firstDay = -Days;
        var cold = nursery.Benches.SelectMany(bench => bench.Zones)
            .OrderBy(zone => (zone.ReadsC ?? zone.SetpointC) - zone.SetpointC).ThenBy(zone => zone.Code, StringComparer.Ordinal).First().Code;
        var crew = new Crew(nursery.Workers, firstDay, new Pcg32(seed, 1));
        var climate = new Climate(nursery, cold, ColdBy, firstDay, new Pcg32(seed, 2));
        var plan = new SeasonPlan(nursery, cold, crew, firstDay, new Pcg32(seed, 3));
        var batches = plan.Make(BatchesWanted);
        var crops = nursery.Crops.ToDictionary(crop => crop.Code);
        var curves = Curves(nursery, crops, new Pcg32(seed, 4));
        var lots = plan.Lots.ToDictionary(lot => lot.Code);
        var entries = new List<PastEntry>();
        var truths = batches.ConvertAll(batch => new BatchLife(
            batch, crops[batch.Crop], lots[batch.Lot], curves[batch.Variety], climate, batch.Zone == cold, crew, entries,
            new Pcg32(seed, 1000 + (ulong)batch.Number)).Live());
        entries.AddRange(Surfaces(batches, crew, new Pcg32(seed, 5)));
        var used = batches.Select(batch => batch.Variety).ToHashSet();
        return new PastSeason(
            plan.Lots,
            batches,
            [.. entries.OrderBy(entry => entry.Day).ThenBy(entry => entry.Minute).ThenBy(entry => entry.Batch).ThenBy(entry => entry.Bench, StringComparer.Ordinal)],
            new SeasonTruth(
                seed, firstDay, plan.BadLot, cold, ColdBy, climate.Dips,
                [.. Enumerable.Range(firstDay, Days).Where(day => !crew.Comes(day))],
                [.. nursery.Varieties.Where(variety => used.Contains(variety.Code)).Select(variety => curves[variety.Code])],
                climate.Media, truths));
    }

    private static Dictionary<string, CurveTruth> Curves(PastNursery nursery, Dictionary<string, PastCrop> crops, Pcg32 random) =>
        nursery.Varieties.ToDictionary(variety => variety.Code, variety => SeedCurves.Draw(variety.Code, crops[variety.Crop], random));

    /// <summary>Now and then somebody notes how the surface of a heated bench looked.</summary>
    private static IEnumerable<PastEntry> Surfaces(List<PastBatch> batches, Crew crew, Pcg32 random)
    {
        string[] words = ["dry", "damp", "damp", "damp", "wet"];
        for (var day = batches[0].SowOn; day < 0; day++)
        {
            var today = day;
            foreach (var bench in batches.Where(batch => batch.Heat.From <= today && today < batch.Heat.To)
                .Select(batch => batch.Heat.Bench).Distinct().Order(StringComparer.Ordinal))
            {
                if (random.Chance(0.25) && crew.Comes(day))
                {
                    yield return new PastEntry(day, 515, crew.Morning(day), null, PastWork.Surface, Word: random.OneOf(words), Bench: bench);
                }
            }
        }
    }
}
