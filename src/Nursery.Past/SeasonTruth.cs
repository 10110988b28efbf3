namespace Nursery.Past;

/// <summary>What the season was made from.</summary>
/// <param name="ColdBy">How much colder than its setpoint the cold zone really is, °C.</param>
/// <param name="Dips">Days on which the heating failed, and by how much.</param>
/// <param name="MediaC">True media temperature of each zone, a value a day from <paramref name="FirstDay"/> on.</param>
/// <param name="MissedDays">Days on which nobody came.</param>
public sealed record SeasonTruth(
    ulong Seed,
    int FirstDay,
    string BadLot,
    string ColdZone,
    double ColdBy,
    IReadOnlyList<DipTruth> Dips,
    IReadOnlyList<int> MissedDays,
    IReadOnlyList<CurveTruth> Curves,
    IReadOnlyDictionary<string, IReadOnlyList<double>> MediaC,
    IReadOnlyList<BatchTruth> Batches);
