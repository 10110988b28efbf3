namespace Nursery.Web.Api.Agronomy;

/// <summary>Trays to fill; settling 0.10 and waste 0.05 unless told.</summary>
internal sealed record MixRequest(
    int Trays, int Cells, double CellVolumeMl, double? Settling, double? Waste, IReadOnlyList<AmendmentBody>? Amendments);

/// <summary>Something stirred in, by its rate.</summary>
internal sealed record AmendmentBody(string Name, double GramsPerM3);
