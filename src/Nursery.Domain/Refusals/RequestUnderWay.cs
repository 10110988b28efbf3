namespace Nursery.Domain.Refusals;

public sealed class RequestUnderWay(string key)
    : Refusal("The first request with this Idempotency-Key has no answer yet: wait, and if it stays so, look whether it was carried out")
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyList<FieldError> Errors => [new FieldError("Idempotency-Key", key, "a key whose request is not under way")];
}
