namespace Nursery.Web.Api.Agronomy;

/// <summary>How much to sow; what is left out of survival, correlation and trayLoss is none.</summary>
internal sealed record SowingRequest(
    int WantedPlants,
    double Confidence,
    BetaBody Prior,
    BetaBody? Survival,
    double? WithinCellCorrelation,
    double? TrayLoss,
    KeepBody? Keep,
    IReadOnlyList<int> SeedsPerCell,
    int CellsPerTray,
    CostsBody? Costs);

/// <summary>Plants kept in a cell: a clump from low to high, or one.</summary>
internal sealed record KeepBody(int Low, int High);

/// <summary>In the site's currency each; what is left out costs nothing. Thinning takes 3 s a cell unless told.</summary>
internal sealed record CostsBody(
    double? Seed, double? Cell, double? Mix, double? ThinSecond, double? ThinSecondsPerCell, double? HeatDay, double? HeatDays, double? Blank);
