using Nursery.Printing.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.Sheets;

/// <summary>Cuts a section into pieces that may stand on different pages.</summary>
internal sealed class SheetPieces(SheetColumns columns, TextSetter text)
{
    private const double _signatureLine = 14 * Mm;

    public SheetPiece Head(SheetSection section, bool continued)
    {
        var heading = text.Wrap(continued ? section.Heading + ", continued" : section.Heading, SectionHead, columns.Width, most: 2);
        var note = continued || section.Note is null ? [] : text.Wrap(section.Note, SheetSubtitle, columns.Width, most: 3);
        var height = 3 * Mm + heading.Count * SectionHead.Line + note.Count * SheetSubtitle.Line + 1 * Mm;
        var titles = section.Blocks.Count > 0;
        return new SheetPiece(height + (titles ? SheetColumns.TitleHeight : 0), (page, left, top) =>
        {
            var y = text.DrawLines(page, heading, left, top + 3 * Mm, SectionHead);
            text.DrawLines(page, note, left, y, SheetSubtitle);
            if (titles)
                columns.DrawTitles(page, text, left, top + height);
        });
    }

    /// <summary>A block as one piece; as its rows when a page would not hold it.</summary>
    public IEnumerable<SheetPiece> Block(IReadOnlyList<IReadOnlyList<SheetCell>> block, double pageHeight)
    {
        var rows = block.Select((cells, i) => Row(new SheetRow(cells, columns, text), last: i + 1 == block.Count)).ToList();
        return rows.Sum(row => row.Height) <= pageHeight ? [SheetPiece.Together(rows)] : rows;
    }

    public SheetPiece Signatures(IReadOnlyList<string> words) => new(_signatureLine, (page, left, top) =>
    {
        var width = columns.Width / words.Count;
        for (var i = 0; i < words.Count; i++)
        {
            var x = left + i * width;
            var y = top + _signatureLine - Detail.Line;
            page.DrawLine(Hairline, x, y, x + width - 5 * Mm, y);
            text.Draw(page, text.OneLine(words[i], Detail, width - 5 * Mm), x, y, Detail);
        }
    });

    private SheetPiece Row(SheetRow row, bool last) => new(row.Height, (page, left, top) =>
    {
        row.Draw(page, left, top);
        page.DrawLine(last ? Hairline : Dotted, left, top + row.Height, left + columns.Width, top + row.Height);
    });
}
