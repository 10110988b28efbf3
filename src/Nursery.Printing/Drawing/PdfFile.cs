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

        // Latin-1 maps every byte to one character and back.
        var file = Encoding.Latin1.GetString(stream.ToArray());
        file = Dates().Replace(file, found => new string(' ', found.Length));
        file = XmpDates().Replace(file, found => new string(' ', found.Length));
        file = SubsetTags(file);
        file = Identity(file);
        return Encoding.Latin1.GetBytes(file);
    }

    /// <summary>A subset's tag is six letters, different for each font of the file (ISO 32000-1, 9.6.4); here in order of appearance.</summary>
    private static string SubsetTags(string file)
    {
        var tags = new Dictionary<string, string>();
        return SubsetTag().Replace(file, found =>
        {
            var random = found.Groups[2].Value;
            if (!tags.TryGetValue(random, out var tag))
                tags[random] = tag = "AAAA" + (char)('A' + tags.Count / 26) + (char)('A' + tags.Count % 26);
            return found.Groups[1].Value + tag;
        });
    }

    /// <summary>The file identifiers become a digest of everything else.</summary>
    private static string Identity(string file)
    {
        file = Uuid().Replace(file, "uuid:00000000-0000-0000-0000-000000000000");
        file = FileId().Replace(file, $"/ID[<{new string('0', 32)}><{new string('0', 32)}>]");
        var digest = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(file)))[..32];
        file = Uuid().Replace(file, "uuid:" + Guid.Parse(digest).ToString("D"));
        return FileId().Replace(file, $"/ID[<{digest}><{digest}>]");
    }

    [GeneratedRegex(@"/(?:CreationDate|ModDate)\(D:[^)]*\)")]
    private static partial Regex Dates();

    [GeneratedRegex("<(xmp:(?:CreateDate|ModifyDate|MetadataDate))>[^<]*</\\1>")]
    private static partial Regex XmpDates();

    [GeneratedRegex("(/(?:FontName|BaseFont)/)([A-Z]{6})(?=\\+)")]
    private static partial Regex SubsetTag();

    [GeneratedRegex("uuid:[0-9A-Fa-f]{8}(?:-[0-9A-Fa-f]{4}){3}-[0-9A-Fa-f]{12}")]
    private static partial Regex Uuid();

    [GeneratedRegex(@"/ID\[<[0-9A-F]{32}><[0-9A-F]{32}>\]")]
    private static partial Regex FileId();
}
