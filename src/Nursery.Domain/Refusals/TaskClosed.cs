namespace Nursery.Domain.Refusals;

public sealed class TaskClosed(string task, string batchCode) : Refusal($"The task '{task}' of batch {batchCode} is already done")
{
    public override RefusalKind Kind => RefusalKind.State;
}
