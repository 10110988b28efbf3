using Nursery.Application.Computed;

namespace Nursery.Application.Sowings;

/// <summary>Growing mix to prepare for some sowings that are still to come.</summary>
/// <param name="Liters">Loosened, with what settles and what is spilled.</param>
/// <param name="Packages">Bales or bags to open.</param>
/// <param name="PackageLiters">Of one as sold.</param>
/// <param name="Trays">By the size of their cells.</param>
/// <param name="Amendments">What is stirred in.</param>
/// <param name="UnknownTrays">Trays nobody knows the cells of: their mix is not in it.</param>
/// <param name="How">Where that comes from.</param>
public sealed record MixNeed(
    double Liters, int Packages, double PackageLiters, IReadOnlyList<MixTrays> Trays, IReadOnlyList<MixedIn> Amendments, int UnknownTrays, How How);

/// <summary>Trays of one size.</summary>
/// <param name="Cells">To be filled; of shared trays those of the batches counted here.</param>
/// <param name="CellMilliliters">Of one cell.</param>
/// <param name="From">Where the volume of a cell is from.</param>
public sealed record MixTrays(int CellsPerTray, int Cells, double CellMilliliters, string From, double Liters);

/// <summary>An amendment of the mix.</summary>
public sealed record MixedIn(string Name, double GramsPerCubicMeter, double Grams);
