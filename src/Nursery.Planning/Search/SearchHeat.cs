namespace Nursery.Planning.Search;

/// <summary>How a search is tempered.</summary>
/// <param name="Start">Temperature at the start, cents: how much worse a plan may be to be kept.</param>
/// <param name="End">At the end.</param>
/// <param name="ZoneShare">Part of the steps that empty a zone for some weeks.</param>
/// <param name="Most">Most batches placed anew in the other steps, 2 or more.</param>
/// <param name="Blink">Part of the modes passed over.</param>
internal sealed record SearchHeat(double Start, double End, double ZoneShare, int Most, double Blink)
{
    public static SearchHeat Usual { get; } = new(400, 5, 0.3, 10, 0.01);

    public double At(double done) => Start * Math.Pow(End / Start, done);
}
