namespace Nursery.Past;

/// <summary>A seed lot of the season; <paramref name="Viability"/> is the truth behind the label.</summary>
public sealed record PastLot(string Code, string Variety, int LabelPercent, double Viability, bool IsBad, int TestedOn)
{
    /// <summary>Seeds received: what the batches take, to the last one, so that nothing of it is left to plan with today.</summary>
    public int Seeds { get; set; }
}
