namespace Nursery.Domain.Refusals;

public sealed class BandsDoNotMeet(string why) : Refusal($"These crops cannot share a tray: {why}")
{
    public override RefusalKind Kind => RefusalKind.State;
}
