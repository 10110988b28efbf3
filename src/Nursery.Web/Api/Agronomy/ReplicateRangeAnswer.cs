using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Best less worst, and the most the table allows; null where it prints nothing for this mean.</summary>
internal sealed record ReplicateRangeAnswer(double Range, int? Allowed, bool? Within, string Source, How How);
