namespace Nursery.Printing.MixSheets;

/// <summary>Growing mix to prepare, day by day; every text is already in the site's words and units.</summary>
/// <param name="Span">The days it is for, such as "2–8 March 2026".</param>
/// <param name="Cautions">Printed before the first day, in one paragraph.</param>
public sealed record MixSheetModel(Imprint Imprint, Paper Paper, string Span, string Cautions, IReadOnlyList<MixDay> Days);
