namespace Nursery.Domain.Refusals;

public sealed class BatchClosed(string batchCode, string stage) : Refusal($"Batch {batchCode} is {stage}: nothing more can be done with it")
{
    public override RefusalKind Kind => RefusalKind.State;
}
