namespace Nursery.Domain.Refusals;

/// <summary>What was to be taken back has been changed again since.</summary>
public sealed class GroundHasMoved(string what)
    : Refusal($"{what} cannot be taken back: the plan has been changed there since")
{
    public override RefusalKind Kind => RefusalKind.State;
}
