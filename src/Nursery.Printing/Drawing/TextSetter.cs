using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Nursery.Printing.Drawing;

/// <summary>Measures, wraps and draws text. One per document: its fonts belong to no other thread.</summary>
internal sealed class TextSetter
{
    private const string _ellipsis = "…";

    private static readonly XPdfFontOptions _unicode = new(PdfFontEncoding.Unicode);

    /// <summary>Tags of one set say the same ten times: what was measured is kept, up to so many texts.</summary>
    private const int _mostKept = 4096;

    private readonly Dictionary<(string File, double Size), XFont> _fonts = [];
    private readonly Dictionary<(string Text, Face Face), IReadOnlyList<(string File, string Text)>> _runs = [];
    private readonly Dictionary<(string Text, TextStyle Style), double> _widths = [];
    private readonly Dictionary<(string Text, TextStyle Style, double Width, int Most), IReadOnlyList<string>> _wraps = [];
    private readonly XGraphics _measure =
        XGraphics.CreateMeasureContext(new XSize(1000, 1000), XGraphicsUnit.Point, XPageDirection.Downwards);

    public double Width(string text, TextStyle style) => Kept(
        _widths, (text, style), () => RunsOf(text, style.Face).Sum(run => _measure.MeasureString(run.Text, Font(run.File, style.Size)).Width));

    /// <summary>Draws one line whose top left corner is (x, top).</summary>
    public void Draw(XGraphics page, string text, double x, double top, TextStyle style)
    {
        var runs = RunsOf(text, style.Face);
        for (var i = 0; i < runs.Count; i++)
        {
            var font = Font(runs[i].File, style.Size);
            page.DrawString(runs[i].Text, font, Typography.InkBrush, x, top + style.Baseline);
            if (i + 1 < runs.Count)
                x += _measure.MeasureString(runs[i].Text, font).Width;
        }
    }

    /// <summary>Draws one line that ends at <paramref name="right"/>.</summary>
    public void DrawRight(XGraphics page, string text, double right, double top, TextStyle style) =>
        Draw(page, text, right - Width(text, style), top, style);

    /// <summary>Draws lines below each other and returns where the next may start.</summary>
    public double DrawLines(XGraphics page, IEnumerable<string> lines, double x, double top, TextStyle style)
    {
        foreach (var line in lines)
        {
            Draw(page, line, x, top, style);
            top += style.Line;
        }

        return top;
    }

    /// <summary>The style in the greatest size, from its own down to <paramref name="least"/>, in which the text fits the width.</summary>
    public TextStyle Fit(string text, TextStyle style, double width, double least)
    {
        var wanted = Width(text, style);
        return wanted <= width ? style : style.Sized(Math.Max(least, Math.Floor(style.Size * width / wanted * 4) / 4));
    }

    public string OneLine(string text, TextStyle style, double width) => Wrap(text, style, width, 1).FirstOrDefault("");

    /// <summary>Breaks a text at its spaces, words wider than the column anywhere; what is left after the last line becomes "…".</summary>
    public IReadOnlyList<string> Wrap(string text, TextStyle style, double width, int most) =>
        Kept(_wraps, (text, style, width, most), () => Break(text, style, width, most));

    private List<string> Break(string text, TextStyle style, double width, int most)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Pieces(word, style, width)))
        {
            var longer = line.Length == 0 ? word : line + " " + word;
            if (Width(longer, style) <= width)
            {
                line = longer;
                continue;
            }

            if (lines.Count + 1 == most)
                return [.. lines, Shorten(longer, style, width)];
            lines.Add(line);
            line = word;
        }

        return line.Length == 0 ? lines : [.. lines, line];
    }

    private IEnumerable<string> Pieces(string word, TextStyle style, double width)
    {
        while (word.Length > 1 && Width(word, style) > width)
        {
            var take = Longest(word, style, width, "");
            yield return word[..take];
            word = word[take..];
        }

        if (word.Length > 0)
            yield return word;
    }

    private string Shorten(string text, TextStyle style, double width) =>
        text[..Longest(text, style, width, _ellipsis)].TrimEnd() + _ellipsis;

    private int Longest(string text, TextStyle style, double width, string ending)
    {
        var take = text.Length - 1;
        while (take > 1 && Width(text[..take].TrimEnd() + ending, style) > width)
            take--;
        return take > 1 && char.IsHighSurrogate(text[take - 1]) ? take - 1 : take;
    }

    private IReadOnlyList<(string File, string Text)> RunsOf(string text, Face face) =>
        Kept(_runs, (text, face), () => Typeface.For(face).Runs(text));

    private static TValue Kept<TKey, TValue>(Dictionary<TKey, TValue> kept, TKey key, Func<TValue> make)
        where TKey : notnull
    {
        if (kept.TryGetValue(key, out var known))
            return known;
        if (kept.Count >= _mostKept)
            kept.Clear();
        return kept[key] = make();
    }

    private XFont Font(string file, double size)
    {
        if (!_fonts.TryGetValue((file, size), out var font))
            _fonts[(file, size)] = font = new XFont(file, size, XFontStyleEx.Regular, _unicode);
        return font;
    }
}
