namespace Nursery.Agronomy.Emergence;

/// <summary>How much warmth a crop's seed wants, from memory: the prior of its fit.</summary>
public enum CropClass
{
    Cool,
    Middle,
    Warm,
}
