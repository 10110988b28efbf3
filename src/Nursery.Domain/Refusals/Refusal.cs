namespace Nursery.Domain.Refusals;

/// <summary>A request the nursery refuses, said in a sentence with numbers. Each rule has a type of its own, and its name is
/// the code that other systems see.</summary>
public abstract class Refusal(string sentence) : Exception(sentence)
{
    public string Code => GetType().Name;

    public abstract RefusalKind Kind { get; }

    /// <summary>The fields at fault, when fields are.</summary>
    public virtual IReadOnlyList<FieldError> Errors => [];

    /// <summary>Facts a program wants beside the sentence (heldBy, until, setpointC …).</summary>
    public virtual IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>();
}
