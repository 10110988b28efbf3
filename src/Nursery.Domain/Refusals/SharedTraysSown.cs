namespace Nursery.Domain.Refusals;

/// <summary>Seed lies in the shared trays: what is in them cannot be dealt out anew.</summary>
public sealed class SharedTraysSown(string traySetCode, string batchCode) : Refusal(
    $"Batch {batchCode} is already sown in the trays {traySetCode}: no batch can be taken out of them any more. Give the one you do not want up instead")
{
    public override RefusalKind Kind => RefusalKind.State;
}
