namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Which trays are selected; stays when the day changes, as long as they lie there.</summary>
public sealed record TraySetKey(string BenchCode, string Code, int? First, PlanAgainstFact Fact);
