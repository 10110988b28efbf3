using NodaTime;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;

namespace Nursery.Application.Scenario;

internal enum LedgerRowKind
{
    Count,
    MoveOffHeat,
    Thin,
    Surface,
    Loss,
}

/// <summary>A line of ledger.csv.</summary>
internal sealed record LedgerRow(
    CsvRow Row, LocalDate On, LocalTime Time, PersonRow Who, LedgerRowKind Kind, string What, int Value, int? Trays, bool Sample)
{
    public static IReadOnlyDictionary<string, CountWhat> Counted { get; } = new Dictionary<string, CountWhat>
    {
        ["seedlings"] = CountWhat.Seedlings,
        ["cellsUp"] = CountWhat.CellsUp,
        ["blanks"] = CountWhat.Blanks,
    };

    public static IReadOnlyDictionary<string, SurfaceState> Surfaces { get; } = new Dictionary<string, SurfaceState>
    {
        ["dry"] = SurfaceState.Dry,
        ["damp"] = SurfaceState.Damp,
        ["wet"] = SurfaceState.Wet,
    };

    /// <summary>The row as a client would report it; moving off heat and thinning are tasks and are reported as such.</summary>
    public EntryContent AsContent(Guid batch, string benchCode) => Kind switch
    {
        LedgerRowKind.Count => new PlantsCounted(
            batch, Counted[What], Value, Trays is { } trays ? new TrayChoice(trays, null) : null, null, Sample),
        LedgerRowKind.Surface => new SurfaceSeen(benchCode, Surfaces[What]),
        LedgerRowKind.Loss => new PlantsLost(batch, Value, What),
        _ => throw new InvalidOperationException($"a {Kind} row is no entry of its own"),
    };
}
