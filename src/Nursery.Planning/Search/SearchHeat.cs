namespace Nursery.Planning.Search;

/// <summary>How a search is tempered.</summary>
/// <param name="Start">Temperature at the start, cents: how much worse a plan may be to be kept.</param>
/// <param name="End">At the end.</param>
/// <param name="ZoneShare">Part of the steps that empty a zone for some weeks.</param>
/// <param name="Most">Most batches placed anew in the other steps, 2 or more.</param>
/// <param name="Blink">Part of the modes passed over.</param>
/// <param name="Parts">Part of the batches without a place in one piece that are tried in several; to look for those costs more than all the
/// rest of a step, and good plans of large nurseries have none.</param>
/// <param name="Runs">To make room for a batch, a whole run of spaces is emptied instead of about as many spaces anywhere: in tight small
/// nurseries it is the run in one piece that is missing, not the spaces.</param>
internal sealed record SearchHeat(double Start, double End, double ZoneShare, int Most, double Blink, double Parts, bool Runs = false)
{
    private const int Small = 150;

    /// <summary>Tried out on invented nurseries (docs/planning.md). A large one has fewer steps a batch and starts from a better plan,
    /// which a hot search would only spoil; where not all have a place, to choose who goes without takes much more heat. A small one is hot
    /// enough to set a zone anew.</summary>
    public static SearchHeat Of(Season season) => season switch
    {
        { Places.Length: > 5000 } => new(10, 3, 0.4, 8, 0.01, 0.1),
        { Places.Length: > 1000 } => new(50, 10, 0.3, 8, 0.01, 0.1),
        _ when season.Unplaced.Length * 20 > season.Places.Length => new(15000, 100, 0.05, 10, 0.01, 1),
        { Places.Length: <= Small } => new(1500, 50, 0.5, 10, 0.01, 1, Runs: true),
        _ => new(400, 20, 0.3, 10, 0.01, 1),
    };

    public double At(double done) => Start * Math.Pow(End / Start, done);
}
