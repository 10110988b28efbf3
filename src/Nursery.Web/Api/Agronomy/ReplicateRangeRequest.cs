namespace Nursery.Web.Api.Agronomy;

/// <summary>Germination of each replicate of 100 seeds, %.</summary>
internal sealed record ReplicateRangeRequest(IReadOnlyList<double> Percents);
