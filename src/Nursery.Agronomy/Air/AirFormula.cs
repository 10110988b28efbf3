namespace Nursery.Agronomy.Air;

/// <summary>Which published formulas to use. They differ by less than 0.1 % near 25 °C and are not to be mixed.</summary>
public enum AirFormula
{
    /// <summary>FAO Irrigation and Drainage Paper 56: Tetens' curve over water.</summary>
    Fao56,

    /// <summary>ASHRAE Handbook Fundamentals, ch. 1: Hyland and Wexler, over ice below 0 °C.</summary>
    Ashrae,
}
