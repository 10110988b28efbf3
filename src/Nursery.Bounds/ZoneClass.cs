using Nursery.Planning.Search;

namespace Nursery.Bounds;

/// <summary>Zones of equal size: the relaxation only counts how many are on a level.</summary>
internal sealed record ZoneClass(int Spaces, IReadOnlyList<int> Zones)
{
    public static List<ZoneClass> Of(SeasonModel model) =>
    [
        .. Enumerable.Range(0, model.Zones).GroupBy(zone => model.Spaces[zone]).OrderBy(group => group.Key)
            .Select(group => new ZoneClass(group.Key, [.. group])),
    ];

    /// <summary>Zones that may be on a level in a week.</summary>
    public int May(SeasonModel model, int week, int level) =>
        Zones.Count(zone => (model.Allowed[(zone * model.Weeks) + week] >> level & 1) != 0);

    /// <summary>Zones that must be on a level in a week: promised, or under trays that stay.</summary>
    public int Must(SeasonModel model, int week, int level) =>
        Zones.Count(zone => model.Allowed[(zone * model.Weeks) + week] == 1u << level);

    /// <summary>Zones that were on a level in the week before the season, or may be counted so.</summary>
    public int Before(SeasonModel model, int level) => Zones.Count(zone => model.LevelBefore[zone] == level || model.LevelBefore[zone] < 0);
}
