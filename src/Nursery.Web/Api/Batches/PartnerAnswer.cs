using NodaTime;
using Nursery.Application.Batches;

namespace Nursery.Web.Api.Batches;

/// <summary>A planned batch that might share trays; the reason why it does not suit is a code and a sentence.</summary>
internal sealed record PartnerAnswer(
    Guid BatchId,
    string BatchCode,
    int Version,
    string CropName,
    string VarietyName,
    int CellsPerTray,
    int CellsPlanned,
    int CellsNeeded,
    LocalDate SowOn,
    LocalDate MoveOffOn,
    decimal MinC,
    decimal MaxC,
    bool Chosen,
    bool SameBand,
    string? WhyNotCode,
    string? WhyNot)
{
    public static PartnerAnswer From(TrayPartner partner) => new(
        partner.BatchId, partner.BatchCode, partner.Version, partner.CropName, partner.VarietyName, partner.CellsPerTray,
        partner.CellsPlanned, partner.CellsNeeded, partner.SowOn, partner.MoveOffOn, partner.MinC, partner.MaxC, partner.Chosen,
        partner.SameBand, partner.WhyNot?.Code, partner.WhyNot?.Message);
}
