namespace Nursery.Web.Components.Pages.Rounds;

/// <summary>What plants are usually lost to; any other cause goes in words.</summary>
internal static class LossCauses
{
    public static IReadOnlyList<string> Usual { get; } = ["damping-off", "dried out", "too wet", "too cold", "too hot", "pests", "dropped"];
}
