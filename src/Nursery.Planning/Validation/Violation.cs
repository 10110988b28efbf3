using Nursery.Planning.Scoring;

namespace Nursery.Planning.Validation;

/// <summary>Something in a plan that cannot be carried out.</summary>
/// <param name="What">Batch, zone or bench.</param>
/// <param name="Sentence">With the numbers.</param>
public sealed record Violation(Constraint Constraint, string What, string Sentence);
