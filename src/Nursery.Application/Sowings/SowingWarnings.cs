using System.Globalization;
using Nursery.Application.Batches;
using Nursery.Application.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sowings;

/// <summary>What whoever sows should know before.</summary>
internal static class SowingWarnings
{
    /// <summary>77 °F: above it seed that sleeps in heat stays down unless primed (from memory).</summary>
    private const decimal SleepsAboveC = 25;

    public static IReadOnlyList<string> Of(BatchRow row, SowingGround ground, SowingWish? wish, SowingCase? sowing, Units units)
    {
        var warnings = new List<string>();
        var spot = ground.Heat.SpotOf(row.Crop, row.Batch.SowOn, wish?.Place);
        if (FindCropEmergence.Of(row.Crop).Published is { SleepsInHeat: true } && spot.Media.Celsius > SleepsAboveC && row.Lot?.Form != SeedForm.Primed)
        {
            warnings.Add($"{row.Crop.Name} sleeps in heat: in mix above {Degrees.Of(SleepsAboveC, units)} few come up unless the seed is primed; here the mix has {Degrees.Of(spot.Media.Celsius, units)}.");
        }

        if (wish is not null && sowing is null)
        {
            warnings.Add($"Nothing would come up: {spot.From}.");
        }

        if (sowing is not null && sowing.Chance(row.Batch.SeedsPerCell, row.Batch.Cells) is var chance && chance < sowing.Terms.Confidence.Value)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"As planned the {wish!.Plants:N0} plants ordered come with a chance of {SowingWords.Chance(chance)}, less than the {sowing.Terms.Confidence.Value * 100:0.##} % asked for."));
        }

        return warnings;
    }
}
