using Nursery.Testing.Papers;

namespace Nursery.Printing.Tests.EveryPaper;

/// <summary>A paper with something on it, and what a reader must find.</summary>
/// <param name="Says">Words, and how many times the whole paper says them; spaces do not count.</param>
/// <param name="Codes">Words beside a code, and what the code says; empty for papers without codes.</param>
internal sealed record PaperCase(
    Func<byte[]> Render,
    PaperStock Stock,
    IReadOnlyCollection<(string Words, int Times)> Says,
    IReadOnlyCollection<(string Words, string Payload)> Codes);
