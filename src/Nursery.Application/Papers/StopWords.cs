using Nursery.Application.Benches;
using Nursery.Domain.Sites;

namespace Nursery.Application.Papers;

/// <summary>What a stop of the walk is called: "House 2 · bench 2A · 80 °F heat".</summary>
internal sealed class StopWords(IReadOnlyList<HousePlan> houses, Units units)
{
    public string Of(string? houseCode, string? benchCode)
    {
        var house = houses.FirstOrDefault(row => row.Code == houseCode);
        if (house is null)
        {
            return houseCode ?? "No place yet";
        }

        var bench = house.Benches.FirstOrDefault(row => row.Code == benchCode);
        if (bench is null)
        {
            return benchCode is null ? house.Name : $"{house.Name} · bench {benchCode}";
        }

        var heat = bench.Zones.Select(zone => zone.SetpointC).Distinct().Order().Select(setpoint => Degrees.Of(setpoint, units)).ToList();
        return $"{house.Name} · bench {bench.Code}{(heat.Count == 0 ? "" : $" · {string.Join(", ", heat)} heat")}";
    }
}
