using Nursery.Domain.People;

namespace Nursery.Domain.Refusals;

public sealed class NotAllowed(string who, Right right)
    : Refusal($"{who} may not do this: it needs the right '{right.ToString().ToLowerInvariant()}'")
{
    public override RefusalKind Kind => RefusalKind.NotAllowed;
}
