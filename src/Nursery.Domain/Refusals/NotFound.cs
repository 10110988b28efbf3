namespace Nursery.Domain.Refusals;

/// <summary>Nothing of that id or code on the actor's site.</summary>
public sealed class NotFound(string what, string fieldName, string value) : Refusal($"There is no {what} '{value}' on this site")
{
    public override RefusalKind Kind => RefusalKind.NotFound;

    public override IReadOnlyList<FieldError> Errors => [new FieldError(fieldName, value, $"a {what} of this site")];
}
