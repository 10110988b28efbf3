namespace Nursery.Domain.Refusals;

public sealed class NotShared(string batchCode) : Refusal($"Batch {batchCode} has its trays to itself: it shares them with none")
{
    public override RefusalKind Kind => RefusalKind.State;
}
