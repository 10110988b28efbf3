namespace Nursery.Domain.Refusals;

public sealed class ChangedMeanwhile(string what, int yours, int theirs) : Refusal($"{what} was changed by someone else meanwhile: you saw version {yours}, it is version {theirs} now")
{
    public override RefusalKind Kind => RefusalKind.State;
}
