namespace Nursery.Domain.Refusals;

/// <summary>A plan that can be neither accepted nor dropped.</summary>
public sealed class NoOpenProposal(string why) : Refusal($"This proposal cannot be accepted or dropped: {why}")
{
    public override RefusalKind Kind => RefusalKind.State;
}
