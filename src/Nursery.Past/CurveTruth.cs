namespace Nursery.Past;

/// <summary>The emergence curve of a variety, in days at its optimum. Two populations: a share of quick seeds and the slow rest, both
/// log-normal about their medians. Gompertz: F(t) = exp(−exp(−(t − m) ÷ b)).</summary>
public sealed record CurveTruth(
    string Variety, bool IsGompertz, double QuickShare, double QuickMedian, double SlowMedian, double Mode, double Scale)
{
    public string Name => IsGompertz ? "gompertz" : "twoPopulations";
}
