namespace Nursery.Planning.Search;

/// <summary>Among places that cost the same: a batch goes to a bench of the house it came up in where one is free for its days, so that
/// fewer trays are carried from house to house. Sow days, zones and costs stay as they are.</summary>
internal static class NearBenches
{
    /// <summary>A bench a batch leaves is free for another one; after so many rounds hardly any moves.</summary>
    private const int Rounds = 3;

    public static void Settle(Season season)
    {
        var model = season.Model;
        var houses = Houses(season);
        for (var (round, moved) = (0, true); round < Rounds && moved; round++)
        {
            moved = false;
            for (var batch = 0; batch < season.Places.Length; batch++)
            {
                var place = season.Places[batch];

                // What stands in parts or has its bench today stays where it is: both are paid for.
                if (season.IsPlaced(batch) && place.Parts is null && model.NowBench[batch] < 0 && houses[place.Bench] != houses[place.Zone])
                {
                    moved |= Move(season, batch, houses);
                }
            }
        }
    }

    private static bool Move(Season season, int batch, string[] houses)
    {
        var (model, modes) = (season.Model, season.Model.Modes);
        var place = season.Take(batch);
        int emerge = modes.Emerge[place.Mode], harden = modes.Ready[place.Mode] - model.HardeningDays;
        var spacing = emerge + ((harden - emerge) / 2);
        int before = model.Before[batch], after = model.After[batch];
        foreach (var bench in modes.Band[place.Mode] == BenchUse.Warm ? model.WarmBenches : model.CoolBenches)
        {
            if (houses[bench] == houses[place.Zone]
                && season.Loads.AtMost(bench, emerge, spacing, model.Spaces[bench] - before)
                && season.Loads.AtMost(bench, spacing, harden, model.Spaces[bench] - after)
                && season.Bits.Find(bench, emerge, spacing, harden, before, after, out var firstAfter) is >= 0 and var first)
            {
                (place.Bench, place.BenchFirst, place.BenchFirstAfter) = ((short)bench, (short)first, (short)firstAfter);
                season.Put(batch, place);
                return true;
            }
        }

        season.Put(batch, place);
        return false;
    }

    /// <summary>House of every zone and bench.</summary>
    private static string[] Houses(Season season)
    {
        var problem = season.Model.Problem;
        var benches = problem.Benches.ToDictionary(bench => bench.Id, bench => bench.House);
        var zones = problem.Zones.ToDictionary(zone => zone.Id, zone => benches[zone.Bench]);
        return [.. season.Model.AreaId.Select((id, area) => area < season.Model.Zones ? zones[id] : benches[id])];
    }
}
