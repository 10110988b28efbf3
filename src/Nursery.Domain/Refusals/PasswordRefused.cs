namespace Nursery.Domain.Refusals;

/// <summary>A password was not changed: the old one is wrong, the new one does not do, or there were too many tries. No
/// password stands in the sentence.</summary>
public sealed class PasswordRefused(string sentence) : Refusal(sentence)
{
    public override RefusalKind Kind => RefusalKind.State;
}
