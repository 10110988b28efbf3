using UglyToad.PdfPig;

namespace Nursery.Application.Tests.Papers;

/// <summary>A printed paper read back by a reader that shares no code with the writer.</summary>
internal static class PaperText
{
    /// <summary>All letters without any space: words may be set from two font files, which word finders cut.</summary>
    public static string Of(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return Squeeze(string.Concat(document.GetPages().SelectMany(page => page.Letters).Select(letter => letter.Value)));
    }

    public static string Squeeze(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));
}
