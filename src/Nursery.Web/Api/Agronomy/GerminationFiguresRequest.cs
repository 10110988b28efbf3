using Nursery.Agronomy.Germination;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Daily counts, each new that day.</summary>
internal sealed record GerminationFiguresRequest(int Seeds, IReadOnlyList<DayCount> Counts);
