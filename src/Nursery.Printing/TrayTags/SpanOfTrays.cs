namespace Nursery.Printing.TrayTags;

/// <summary>Trays from one number to another, both included.</summary>
internal readonly record struct SpanOfTrays(int First, int Last)
{
    public int Count => Last - First + 1;
}
