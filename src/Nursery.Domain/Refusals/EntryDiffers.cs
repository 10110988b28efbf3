namespace Nursery.Domain.Refusals;

public sealed class EntryDiffers(Guid id)
    : Refusal($"Entry {id} is already in the ledger with other content; a correction needs an id of its own")
{
    public override RefusalKind Kind => RefusalKind.State;
}
