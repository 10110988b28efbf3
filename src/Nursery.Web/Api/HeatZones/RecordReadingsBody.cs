using Nursery.Application.HeatZones.Readings;

namespace Nursery.Web.Api.HeatZones;

internal sealed record RecordReadingsBody(IReadOnlyList<ReportedReading> Readings);
