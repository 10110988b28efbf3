namespace Nursery.Domain.Refusals;

public sealed class TraysAreShared(string traySetCode, int batches) : Refusal($"{batches} batches share the trays {traySetCode}: give each trays of its own, or change them together")
{
    public override RefusalKind Kind => RefusalKind.State;
}
