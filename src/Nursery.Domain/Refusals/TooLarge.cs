namespace Nursery.Domain.Refusals;

public sealed class TooLarge(string sentence, params IReadOnlyList<FieldError> errors) : Refusal(sentence)
{
    public override IReadOnlyList<FieldError> Errors => errors;

    public override RefusalKind Kind => RefusalKind.TooLarge;
}
