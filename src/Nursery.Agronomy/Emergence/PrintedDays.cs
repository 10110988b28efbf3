namespace Nursery.Agronomy.Emergence;

/// <summary>What the published table has for a crop at one temperature.</summary>
/// <param name="Temperature">Soil temperature.</param>
/// <param name="Days">Days to emergence; null for no germination (NG) and not tested (NT).</param>
/// <param name="Tested">False for NT.</param>
/// <param name="Normal">Normal seedlings of all seed; null where nothing is printed or the temperature was not tested.</param>
public sealed record PrintedDays(Temperature Temperature, int? Days, bool Tested, Fraction? Normal);
