using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>One field two people changed: what is sent now and what somebody else stored since it was read.</summary>
public sealed record TwoValues(string Field, string Yours, string Theirs);

/// <summary>Somebody else changed the row after it was read; nothing is stored until one of the two values is chosen.</summary>
public sealed class ChangedMeanwhile(string what, int version, IReadOnlyList<TwoValues> values)
    : Refusal($"{what} was changed by someone else while you had it open: {string.Join("; ", values.Select(both => $"{both.Field} is '{both.Theirs}' there and '{both.Yours}' here"))}")
{
    public override RefusalKind Kind => RefusalKind.State;

    public IReadOnlyList<TwoValues> Values => values;

    /// <summary>The version to send when your values shall stand.</summary>
    public int Version => version;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["version"] = version,
        ["values"] = values,
    };
}
