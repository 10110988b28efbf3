namespace Nursery.Domain.Refusals;

public sealed class TooLarge(string sentence) : Refusal(sentence)
{
    public override RefusalKind Kind => RefusalKind.TooLarge;
}
