namespace Nursery.Past;

/// <summary>The heating failed from a day on for some days, in all zones.</summary>
public sealed record DipTruth(int From, int Days, double ByC);
