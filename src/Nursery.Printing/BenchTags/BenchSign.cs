using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>Cuts a bench into sheets and draws them: a frame with a hole to hang it by, head, table, foot.</summary>
internal sealed class BenchSign(BenchTagsModel model, SheetSize sheet, TextSetter text)
{
    private const double _padding = 5 * Mm;
    private const double _holeSide = 6 * Mm;

    private static readonly double _around = 2 * _padding + 2 * Foot.Line + 2 * Mm;

    private readonly BatchColumns _columns = new(sheet.SignWidth - 2 * _padding);

    public IReadOnlyList<SignPart> Parts(BenchTag tag)
    {
        var head = new SignHead(tag, model.PublicAddress, _columns.Width, text);
        var parts = new List<SignPart>();
        var room = Room(sheet.FullHeight, ContinuedHead.Height);
        var left = new Queue<TrayBlock>(TrayBlock.Of(tag, _columns, text).SelectMany(block => block.CutTo(room)));
        do
        {
            var first = parts.Count == 0;
            var headHeight = first ? head.Height : ContinuedHead.Height;
            var half = left.Sum(block => block.Height) <= Room(sheet.HalfHeight, headHeight) && (left.Count > 0 || EmptyFits(headHeight));
            var blocks = Take(left, Room(half ? sheet.HalfHeight : sheet.FullHeight, headHeight));
            parts.Add(new SignPart(tag, first ? head : null, blocks, parts.Count + 1, 0, half));
        }
        while (left.Count > 0);

        return [.. parts.Select(part => part with { Sheets = parts.Count })];
    }

    public void Draw(XGraphics page, SignPart part, XRect frame, string pageNumber)
    {
        page.DrawRectangle(Hairline, frame);
        page.DrawEllipse(Hairline, frame.Left + (frame.Width - _holeSide) / 2, frame.Top + 2.5 * Mm, _holeSide, _holeSide);
        double left = frame.Left + _padding, top = frame.Top + _padding;
        if (part.Head is { } head)
        {
            head.Draw(page, left, top);
            top += head.Height;
        }
        else
        {
            ContinuedHead.Draw(page, text, part, left, top, _columns.Width);
            top += ContinuedHead.Height;
        }

        DrawTable(page, part, left, top);
        var foot = new XRect(left, frame.Bottom - _padding - 2 * Foot.Line, _columns.Width, 2 * Foot.Line);
        FootLines.Draw(page, text, model.Imprint, pageNumber, foot, Foot);
    }

    private void DrawTable(XGraphics page, SignPart part, double left, double top)
    {
        if (part.Blocks.Count == 0)
        {
            page.DrawLine(Rule, left, top, left + _columns.Width, top);
            text.Draw(page, "Nothing stands or is reserved here now.", left, top + 2 * Mm, SignKind);
            return;
        }

        _columns.DrawTitles(page, text, left, top);
        top += BatchColumns.TitleHeight;
        foreach (var block in part.Blocks)
            top = block.Draw(page, left, top);
    }

    private static double Room(double height, double headHeight) => height - headHeight - BatchColumns.TitleHeight - _around;

    private bool EmptyFits(double headHeight) => Room(sheet.HalfHeight, headHeight) >= SignKind.Line;

    /// <summary>Takes at least one block, so that every sheet gets on; the head leaves room for one on a full sheet.</summary>
    private static List<TrayBlock> Take(Queue<TrayBlock> left, double room)
    {
        var taken = new List<TrayBlock>();
        while (left.TryPeek(out var next) && (taken.Count == 0 || next.Height <= room))
        {
            room -= next.Height;
            taken.Add(left.Dequeue());
        }

        return taken;
    }
}
