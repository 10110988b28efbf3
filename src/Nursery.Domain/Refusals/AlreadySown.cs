namespace Nursery.Domain.Refusals;

public sealed class AlreadySown(string batchCode) : Refusal($"Batch {batchCode} is already sown")
{
    public override RefusalKind Kind => RefusalKind.State;
}
