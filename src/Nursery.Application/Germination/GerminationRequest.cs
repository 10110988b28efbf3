using NodaTime;
using NodaTime.Text;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Germination;

/// <summary>Which batches are looked at, by what, and in which order.</summary>
/// <param name="By">What to group by.</param>
/// <param name="From">First sowing day; null from the beginning.</param>
/// <param name="To">First sowing day no longer counted; null to the end.</param>
/// <param name="Crop">Only of this crop, by code.</param>
/// <param name="House">Only of trays that first stood in this house, by code.</param>
/// <param name="Lot">Only of this seed lot, by code.</param>
/// <param name="Below">Only rows with a smaller fraction, above 0, to 1.</param>
/// <param name="Order">What the rows are sorted by; rows without that figure come last either way.</param>
/// <param name="Descending">The greatest first.</param>
public sealed record GerminationRequest(
    GerminationKey By,
    LocalDate? From = null,
    LocalDate? To = null,
    string? Crop = null,
    string? House = null,
    string? Lot = null,
    decimal? Below = null,
    GerminationOrder Order = GerminationOrder.Name,
    bool Descending = false)
{
    /// <exception cref="InvalidFields">Days the wrong way round, or a figure outside its range.</exception>
    internal void Check()
    {
        if (From is { } first && To is { } end && end < first)
        {
            throw new InvalidFields("to", LocalDatePattern.Iso.Format(end), $"{LocalDatePattern.Iso.Format(first)} (from) or later");
        }

        if (Below is <= 0 or > 1)
        {
            throw new InvalidFields("below", Below.Value.ToString(System.Globalization.CultureInfo.InvariantCulture), "above 0, to 1");
        }
    }

    internal bool Takes(GerminatedBatch batch) =>
        (Crop is null || batch.CropCode == Crop) && (House is null || batch.HouseCode == House) && (Lot is null || batch.LotCode == Lot);
}
