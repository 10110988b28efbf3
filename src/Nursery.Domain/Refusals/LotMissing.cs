namespace Nursery.Domain.Refusals;

public sealed class LotMissing(string batchCode) : Refusal($"Batch {batchCode} has no seed lot yet: sow it with one")
{
    public override RefusalKind Kind => RefusalKind.State;
}
