using NodaTime;

namespace Nursery.Web.Api.Sowings;

/// <summary>The version the batch was read at (of its sowing options), and what is to change.</summary>
internal sealed record ReplanBody(int Version, int? Trays, int? SeedsPerCell, LocalDate? SowOn, string? LotCode);
