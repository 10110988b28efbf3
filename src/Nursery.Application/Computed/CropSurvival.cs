using Nursery.Agronomy;
using Nursery.Domain.Crops;

namespace Nursery.Application.Computed;

/// <summary>What of the emerged plants of a crop becomes usable: the same to whoever sows, forecasts or patches.</summary>
public static class CropSurvival
{
    /// <summary>Where the crop does not say (from memory; 0.90 where damping-off is common).</summary>
    public const double Usual = 0.95;

    /// <summary>a + b (from memory).</summary>
    public const double Size = 40;

    public static BetaShape Of(Crop crop) => BetaShape.Of(new Fraction((double?)crop.Survival ?? Usual), Size);

    /// <summary>For a 'how?'.</summary>
    public static IReadOnlyList<HowInput> Inputs(Crop crop) =>
    [
        HowInput.Of("usable of the emerged, on average", 100 * ((double?)crop.Survival ?? Usual), "0.###", "%", crop.Survival is null ? "from memory" : "Setup, crop"),
        HowInput.Of("a + b of survival", Size, "0", "", "from memory"),
    ];
}
