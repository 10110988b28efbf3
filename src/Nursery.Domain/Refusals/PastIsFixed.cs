namespace Nursery.Domain.Refusals;

public sealed class PastIsFixed(string what) : Refusal($"{what} lies in the past, and past days never change")
{
    public override RefusalKind Kind => RefusalKind.State;
}
