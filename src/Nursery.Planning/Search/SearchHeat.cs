namespace Nursery.Planning.Search;

/// <summary>How a search is tempered.</summary>
/// <param name="Start">Temperature at the start, cents: how much worse a plan may be to be kept.</param>
/// <param name="End">At the end.</param>
/// <param name="ZoneShare">Part of the steps that empty a zone for some weeks.</param>
/// <param name="Most">Most batches placed anew in the other steps, 2 or more.</param>
/// <param name="Blink">Part of the modes passed over.</param>
internal sealed record SearchHeat(double Start, double End, double ZoneShare, int Most, double Blink)
{
    /// <summary>Tried out on invented nurseries (docs/planning.md). A large one has fewer steps a batch and starts from a better plan,
    /// which a hot search would only spoil.</summary>
    public static SearchHeat Of(int batches) => batches switch
    {
        <= 1000 => new(700, 20, 0.15, 10, 0.01),
        <= 5000 => new(50, 10, 0.3, 8, 0.01),
        _ => new(10, 3, 0.4, 8, 0.01),
    };

    public double At(double done) => Start * Math.Pow(End / Start, done);
}
