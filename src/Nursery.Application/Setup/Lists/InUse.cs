using Nursery.Domain.Refusals;

namespace Nursery.Application.Setup.Lists;

/// <summary>Something cannot be taken out of use, or made smaller, while others rely on it; they are named.</summary>
public sealed class InUse(string sentence) : Refusal(sentence)
{
    public override RefusalKind Kind => RefusalKind.State;
}
