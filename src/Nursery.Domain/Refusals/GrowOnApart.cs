namespace Nursery.Domain.Refusals;

/// <summary>After the heat a tray stands on one bench.</summary>
public sealed class GrowOnApart(string warm, string cool)
    : Refusal($"{warm} grows on warm, {cool} cool: one tray cannot stand on both benches")
{
    public override RefusalKind Kind => RefusalKind.Rule;
}
