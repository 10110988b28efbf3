namespace Nursery.Agronomy.Forecast;

/// <summary>What a short stand and its remedies cost, in prices of one plant; all from memory, 0 to 1000.</summary>
/// <param name="MissingPlant">A plant that is not there on its day: its price, and something of the customer's patience.</param>
/// <param name="ResownCell">A cell sown again: seed, mix, tray, hands, heat and bench.</param>
/// <param name="PatchMove">A seedling moved into a blank, ten seconds.</param>
public sealed record RemedyCosts(double MissingPlant = 1.2, double ResownCell = 0.2, double PatchMove = 0.1)
{
    internal void Check()
    {
        InputOutOfRange.Within(MissingPlant, 0, 1000, "costs.missingPlant", "prices of a plant");
        InputOutOfRange.Within(ResownCell, 0, 1000, "costs.resownCell", "prices of a plant");
        InputOutOfRange.Within(PatchMove, 0, 1000, "costs.patchMove", "prices of a plant");
    }
}
