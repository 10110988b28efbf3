using PdfSharp.Fonts;

namespace Nursery.Printing.Faces;

/// <summary>Gives PDFsharp the embedded fonts. It asks one resolver per process, so it is set once, before the first font is made.</summary>
internal sealed class FontCatalog : IFontResolver
{
    private static readonly Lazy<FontCatalog> _only = new(Install);

    private readonly Dictionary<string, FontFile> _files = Typeface.Files.ToDictionary(file => file.Name);

    private FontCatalog()
    {
    }

    public static void Use() => _ = _only.Value;

    public FontResolverInfo? ResolveTypeface(string familyName, bool bold, bool italic) =>
        _files.ContainsKey(familyName) ? new FontResolverInfo(familyName) : null;

    public byte[]? GetFont(string faceName) => _files[faceName].Bytes;

    private static FontCatalog Install()
    {
        var catalog = new FontCatalog();
        GlobalFontSettings.FontResolver = catalog;
        return catalog;
    }
}
