using NodaTime;
using Nursery.Domain.Crops;

namespace Nursery.Domain.SeedLots;

/// <summary>Seed of one variety from one supplier lot. Shared by all sites.</summary>
public sealed class SeedLot
{
    public required Id<SeedLot> Id { get; init; }
    public required Id<Variety> VarietyId { get; init; }
    public required string Code { get; set; }
    public required string Supplier { get; set; }
    public required string SupplierLot { get; set; }
    public required SeedForm Form { get; set; }

    /// <summary>Treated seed: gloves, never food or feed; follow the label.</summary>
    public required bool Treated { get; set; }

    /// <summary>Germination on the label, 0–1.</summary>
    public required decimal LabelGermination { get; set; }
    public required LocalDate TestedOn { get; set; }
    public required decimal SeedsPerGram { get; set; }

    /// <summary>Seeds in stock: receipts less sowings of the ledger, never below zero.</summary>
    public int StockSeeds { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;
}
