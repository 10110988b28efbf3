namespace Nursery.Domain.Crops;

/// <summary>What the seed needs to germinate.</summary>
public enum LightNeed
{
    Indifferent,
    NeedsLight,
    Dark,
}
