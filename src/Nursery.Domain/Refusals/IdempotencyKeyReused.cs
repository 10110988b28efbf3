namespace Nursery.Domain.Refusals;

public sealed class IdempotencyKeyReused(string key)
    : Refusal("The Idempotency-Key was sent before with another request; each request needs a key of its own")
{
    public override RefusalKind Kind => RefusalKind.Rule;

    public override IReadOnlyList<FieldError> Errors => [new FieldError("Idempotency-Key", key, "a key not used in the last 24 hours")];
}
