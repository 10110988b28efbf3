using NodaTime;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Scenario;

/// <summary>A line of batches.csv, with the lines of the other two files about it.</summary>
internal sealed record BatchRow(
    CsvRow Row, Variety Variety, SeedLot Lot, int Trays, int CellsPerTray, int SeedsPerCell, LocalDate SowOn, bool Sown, IReadOnlyList<string> Orders)
{
    public List<ReservationRow> Reservations { get; } = [];

    public List<LedgerRow> Ledger { get; } = [];
}
