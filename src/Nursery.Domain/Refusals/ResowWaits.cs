namespace Nursery.Domain.Refusals;

public sealed class ResowWaits(string batchCode, string resowCode)
    : Refusal($"Batch {resowCode} is already planned to make up for {batchCode}; sow or change that one first")
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?> { ["batchCode"] = resowCode };
}
