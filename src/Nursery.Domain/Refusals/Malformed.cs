namespace Nursery.Domain.Refusals;

/// <summary>The request or file cannot be read at all; nothing was stored.</summary>
public sealed class Malformed(string sentence, IReadOnlyList<FieldError>? errors = null) : Refusal(sentence)
{
    public override RefusalKind Kind => RefusalKind.Malformed;

    public override IReadOnlyList<FieldError> Errors => errors ?? [];
}
