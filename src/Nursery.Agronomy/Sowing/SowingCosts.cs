namespace Nursery.Agronomy.Sowing;

/// <summary>What sowing costs, in the site's currency each. All 0 or more.</summary>
/// <param name="Seed">One seed.</param>
/// <param name="Cell">One cell: its share of the tray and its bench space.</param>
/// <param name="Mix">Growing mix of one cell.</param>
/// <param name="ThinSecond">One second of thinning.</param>
/// <param name="ThinSecondsPerCell">Seconds a cell with too many seedlings takes; 2–4 from memory.</param>
/// <param name="HeatDay">One tray a day on heat.</param>
/// <param name="HeatDays">Days on heat.</param>
/// <param name="Blank">Looking after one cell that stays empty.</param>
public sealed record SowingCosts(
    double Seed = 0, double Cell = 0, double Mix = 0, double ThinSecond = 0, double ThinSecondsPerCell = 3, double HeatDay = 0, double HeatDays = 0,
    double Blank = 0)
{
    private const double Most = 1e9;

    internal void Check()
    {
        foreach (var (value, name) in new[]
        {
            (Seed, "seed"), (Cell, "cell"), (Mix, "mix"), (ThinSecond, "thinSecond"), (ThinSecondsPerCell, "thinSecondsPerCell"),
            (HeatDay, "heatDay"), (HeatDays, "heatDays"), (Blank, "blank"),
        })
        {
            InputOutOfRange.Within(value, 0, Most, $"costs.{name}", name.StartsWith("thinSeconds", StringComparison.Ordinal) ? "s" : name == "heatDays" ? "days" : "of the site's currency");
        }
    }
}
