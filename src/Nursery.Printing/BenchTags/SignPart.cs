namespace Nursery.Printing.BenchTags;

/// <summary>What of one bench goes on one sheet or half sheet.</summary>
internal sealed record SignPart(BenchTag Tag, SignHead? Head, IReadOnlyList<TrayBlock> Blocks, int Sheet, int Sheets, bool Half);
