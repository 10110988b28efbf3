using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using PdfSharp.Pdf;

namespace Nursery.Printing.Drawing;

/// <summary>
/// Saves a document so that the same model gives the same bytes: a cache, a test and a person comparing two prints can rely
/// on it. PDFsharp writes the clock and random letters; they are overwritten here with as many bytes, so offsets stay true.
/// </summary>
internal static partial class PdfFile
{
    public static byte[] Save(PdfDocument document, string title, string subject)
    {
        document.Info.Title = title;
        document.Info.Subject = subject;
        document.Info.Creator = "Nursery";
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);

        // Latin-1 maps every byte to one character: what is found in the text stands at the same place in the file.
        var file = stream.ToArray();
        var text = Encoding.Latin1.GetString(file);
        foreach (var found in Dates().EnumerateMatches(text))
            file.AsSpan(found.Index, found.Length).Fill((byte)' ');
        foreach (var found in XmpDates().EnumerateMatches(text))
            file.AsSpan(found.Index, found.Length).Fill((byte)' ');
        WriteSubsetTags(file, text);
        WriteIdentity(file, text);
        return file;
    }

    /// <summary>A subset's tag is six letters, different for each font of the file (ISO 32000-1, 9.6.4); here in order of appearance.</summary>
    private static void WriteSubsetTags(byte[] file, string text)
    {
        var tags = new Dictionary<string, string>();
        foreach (Match found in SubsetTag().Matches(text))
        {
            var random = found.Groups[1];
            if (!tags.TryGetValue(random.Value, out var tag))
                tags[random.Value] = tag = "AAAA" + (char)('A' + tags.Count / 26) + (char)('A' + tags.Count % 26);
            Encoding.Latin1.GetBytes(tag, file.AsSpan(random.Index));
        }
    }

    /// <summary>The file identifiers become a digest of everything else.</summary>
    private static void WriteIdentity(byte[] file, string text)
    {
        Write(new string('0', 32));
        Write(Convert.ToHexString(SHA256.HashData(file))[..32]);

        void Write(string digest)
        {
            foreach (var found in Uuid().EnumerateMatches(text))
                Encoding.Latin1.GetBytes("uuid:" + Guid.Parse(digest).ToString("D"), file.AsSpan(found.Index));
            foreach (var found in FileId().EnumerateMatches(text))
                Encoding.Latin1.GetBytes($"/ID[<{digest}><{digest}>]", file.AsSpan(found.Index));
        }
    }

    [GeneratedRegex(@"/(?:CreationDate|ModDate)\(D:[^)]*\)")]
    private static partial Regex Dates();

    [GeneratedRegex("<(xmp:(?:CreateDate|ModifyDate|MetadataDate))>[^<]*</\\1>")]
    private static partial Regex XmpDates();

    [GeneratedRegex(@"/(?:FontName|BaseFont)/([A-Z]{6})(?=\+)")]
    private static partial Regex SubsetTag();

    [GeneratedRegex("uuid:[0-9A-Fa-f]{8}(?:-[0-9A-Fa-f]{4}){3}-[0-9A-Fa-f]{12}")]
    private static partial Regex Uuid();

    [GeneratedRegex(@"/ID\[<[0-9A-F]{32}><[0-9A-F]{32}>\]")]
    private static partial Regex FileId();
}
