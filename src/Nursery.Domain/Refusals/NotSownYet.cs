namespace Nursery.Domain.Refusals;

public sealed class NotSownYet(string batchCode) : Refusal($"Batch {batchCode} is not sown yet")
{
    public override RefusalKind Kind => RefusalKind.State;
}
