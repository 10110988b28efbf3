namespace Nursery.Planning.Checks;

/// <summary>Something of a problem that is not allowed and was left out, or read as something else.</summary>
/// <param name="Field">Where: "benches[B3].spaces".</param>
/// <param name="Value">What stands there.</param>
/// <param name="Allowed">What may stand there, and what was done.</param>
public sealed record Remark(string Field, string Value, string Allowed)
{
    public string Sentence => $"{Field}: {Value} is not allowed; {Allowed}.";
}
