namespace Nursery.Past;

/// <summary>A batch of the season and the order line it is for: ready on <paramref name="OrderedOn"/>.</summary>
/// <param name="Number">From 1 in sowing order.</param>
/// <param name="Cohort">Batches of one cohort are planned together, a week of sowings at a time.</param>
public sealed record PastBatch(
    int Number,
    int Cohort,
    string Variety,
    string Crop,
    string Lot,
    int Trays,
    int CellsPerTray,
    int SeedsPerCell,
    int SowOn,
    int OrderedOn,
    string Order,
    string Customer,
    int Plants,
    PastHeld Heat,
    PastHeld Growing,
    PastHeld Hardening,
    string Zone);
