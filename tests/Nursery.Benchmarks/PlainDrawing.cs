using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Graphics;
using PdfReader = UglyToad.PdfPig.PdfDocument;

namespace Nursery.Benchmarks;

/// <summary>The boxes, lines and texts of a paper as a foreign reader finds them, drawn again by PDFsharp with nothing thought about:
/// no measuring, no wrapping, every place known. What it does not redraw are dashes and round line ends.</summary>
internal sealed class PlainDrawing
{
    /// <summary>A path of more boxes than any pattern has is a QR code: PDFsharp too may keep it once for all tags that show it.</summary>
    private const int BoxesOfCode = 60;

    private readonly List<Sheet> _sheets = [];

    private PlainDrawing()
    {
    }

    public static PlainDrawing Of(byte[] paper)
    {
        var drawing = new PlainDrawing();
        using var document = PdfReader.Open(paper);
        foreach (var page in document.GetPages())
        {
            drawing._sheets.Add(new Sheet(page.Width, page.Height, [.. Texts(page)], [.. page.Paths.Select(path => ShapeOf(path, page.Height))]));
        }

        return drawing;
    }

    public byte[] Render()
    {
        using var document = new PdfDocument();
        var fonts = new Dictionary<(string, double), XFont>();
        var codes = new Dictionary<string, XForm>();
        foreach (var sheet in _sheets)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(sheet.Width);
            page.Height = XUnit.FromPoint(sheet.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            foreach (var shape in sheet.Shapes)
            {
                shape.Draw(graphics, document, codes);
            }

            foreach (var text in sheet.Texts)
            {
                if (!fonts.TryGetValue((text.Font, text.Size), out var font))
                {
                    fonts[(text.Font, text.Size)] = font = new XFont(text.Font, text.Size, XFontStyleEx.Regular, new XPdfFontOptions(PdfFontEncoding.Unicode));
                }

                graphics.DrawString(text.Words, font, XBrushes.Black, text.X, text.Y);
            }
        }

        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        return stream.ToArray();
    }

    /// <summary>Both must put the same letters on the same pages, or they do not do the same work.</summary>
    public void Check(byte[] rendered)
    {
        var again = Of(rendered);
        if (!_sheets.Select(sheet => (sheet.Letters, sheet.Boxes)).SequenceEqual(again._sheets.Select(sheet => (sheet.Letters, sheet.Boxes))))
        {
            throw new InvalidOperationException("The baseline draws other letters or boxes than the paper.");
        }
    }

    private static IEnumerable<Text> Texts(Page page)
    {
        Letter? before = null;
        var words = new StringBuilder();
        Letter? first = null;
        foreach (var letter in page.Letters)
        {
            if (before is not null && (before.FontName != letter.FontName || before.PointSize != letter.PointSize
                || Math.Abs(before.EndBaseLine.X - letter.StartBaseLine.X) > 0.5 || Math.Abs(before.StartBaseLine.Y - letter.StartBaseLine.Y) > 0.01))
            {
                yield return TextOf(first!, words, page);
                words.Clear();
                first = null;
            }

            first ??= letter;
            words.Append(letter.Value);
            before = letter;
        }

        if (first is not null)
        {
            yield return TextOf(first, words, page);
        }
    }

    private static Text TextOf(Letter first, StringBuilder words, Page page) => new(
        words.ToString(), FileOf(first.FontName ?? ""), first.PointSize, first.StartBaseLine.X, page.Height - first.StartBaseLine.Y);

    private static string FileOf(string font) => (font.Contains("Mono", StringComparison.Ordinal), font.Contains("Bold", StringComparison.Ordinal)) switch
    {
        (true, true) => "mono-700-latin",
        (true, false) => "mono-400-latin",
        (false, true) when font.Contains("Next", StringComparison.Ordinal) => "next-700-latin",
        _ when font.Contains("Bitter", StringComparison.Ordinal) => "bitter-600-latin",
        _ => "next-400-latin",
    };

    private static Shape ShapeOf(PdfPath path, double height) => new(
        [.. path.Select(part => part.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>().Select(box => new XRect(box.Left, height - box.Top, box.Width, box.Height))],
        path.IsFilled);

    private sealed record Text(string Words, string Font, double Size, double X, double Y);

    private sealed record Shape(XRect[] Boxes, bool Filled)
    {
        /// <summary>Says which codes are the same; found once, before the clock runs.</summary>
        private string Key { get; } = string.Join(' ', Boxes.Select(box => FormattableString.Invariant(
            $"{box.Left - Boxes[0].Left:0.0} {box.Top - Boxes[0].Top:0.0} {box.Width:0.0}")));

        public void Draw(XGraphics page, PdfDocument document, Dictionary<string, XForm> codes)
        {
            if (Boxes.Length <= BoxesOfCode)
            {
                DrawOn(page, 0, 0);
                return;
            }

            var (left, top) = (Boxes.Min(box => box.Left), Boxes.Min(box => box.Top));
            if (!codes.TryGetValue(Key, out var code))
            {
                // Reckoning what a code looks like is QRCoder's work, here as there; where it goes is known.
                using var reckoned = QRCoder.QRCodeGenerator.GenerateQrCode(
                    FormattableString.Invariant($"HTTPS://KESTREL-BECK.EXAMPLE/T/PE-{codes.Count:0000}-K-1"), QRCoder.QRCodeGenerator.ECCLevel.Q);
                codes[Key] = code = new XForm(document, new XSize(Boxes.Max(box => box.Right) - left, Boxes.Max(box => box.Bottom) - top));
                using var graphics = XGraphics.FromForm(code);
                DrawOn(graphics, left, top);
            }

            page.DrawImage(code, left, top);
        }

        private void DrawOn(XGraphics page, double left, double top)
        {
            var path = new XGraphicsPath { FillMode = XFillMode.Winding };
            foreach (var box in Boxes)
            {
                path.AddRectangle(box.Left - left, box.Top - top, box.Width, box.Height);
            }

            if (Filled)
            {
                page.DrawPath(XBrushes.Black, path);
            }
            else
            {
                page.DrawPath(XPens.Black, path);
            }
        }
    }

    private sealed record Sheet(double Width, double Height, Text[] Texts, Shape[] Shapes)
    {
        public string Letters => string.Concat(Texts.SelectMany(text => text.Words).Where(c => !char.IsWhiteSpace(c)).Order());

        public int Boxes => Shapes.Sum(shape => shape.Boxes.Length);
    }
}
