using NodaTime;
using Nursery.Application.Batches;
using Nursery.Domain.Batches;

namespace Nursery.Web.Api.Batches;

/// <summary>One batch: what the list says of it, its plan, where it stands, whom it is for and its story.</summary>
internal sealed record BatchAnswer(
    Guid Id,
    string Code,
    string TraySetCode,
    BatchStage Stage,
    string VarietyCode,
    string VarietyName,
    string CropCode,
    string CropName,
    string? LotCode,
    int Trays,
    int CellsPerTray,
    int SeedsPerCell,
    LocalDate SowOn,
    LocalDate? SownOn,
    LocalDate ReadyOn,
    int? CountedSeeds,
    decimal? CountedUp,
    decimal? EmergedFraction,
    int LostPlants,
    int Cells,
    string? Part,
    IReadOnlyList<BatchReservation> Reservations,
    IReadOnlyList<BatchStanding> Standings,
    IReadOnlyList<BatchAllocation> Allocations,
    IReadOnlyList<SharingBatch> SharedWith,
    IReadOnlyList<StoryLine> Story)
{
    public static BatchAnswer From(BatchPage page)
    {
        var batch = page.Batch;
        return new BatchAnswer(
            batch.Id, batch.Code, batch.TraySetCode, batch.Stage, batch.VarietyCode, batch.VarietyName, batch.CropCode, batch.CropName,
            batch.LotCode, batch.Trays, batch.CellsPerTray, batch.SeedsPerCell, batch.SowOn, batch.SownOn, batch.ReadyOn,
            batch.CountedSeeds, batch.CountedUp, batch.EmergedFraction, batch.LostPlants, batch.Cells, batch.Part,
            page.Reservations, page.Standings, page.Allocations, page.SharedWith, page.Story);
    }
}
