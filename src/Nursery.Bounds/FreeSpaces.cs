using Nursery.Planning.Search;

namespace Nursery.Bounds;

/// <summary>Spaces not held by frozen trays or out of use, by day: warm benches, cool benches, hardening.</summary>
internal static class FreeSpaces
{
    public static double[][] Of(SeasonModel model)
    {
        var season = new Season(model);
        return
        [
            OfAreas(model.WarmBenches), OfAreas(model.CoolBenches),
            [.. Enumerable.Range(0, model.Days).Select(day => (double)Math.Max(0, model.HardeningSpaces - season.Loads.On(season.Hardening, day)))],
        ];

        double[] OfAreas(int[] areas) =>
            [.. Enumerable.Range(0, model.Days).Select(day => (double)areas.Sum(area => model.Spaces[area] - season.Loads.On(area, day)))];
    }
}
