using Nursery.Printing.Drawing;
using PdfSharp.Drawing;

namespace Nursery.Printing;

/// <summary>Every face, size, line and measure on paper. Paper is black on white: thermal printers know no other colour.</summary>
internal static class Typography
{
    /// <summary>One millimetre in points.</summary>
    public const double Mm = 72 / 25.4;

    public static readonly XColor Ink = XColors.Black;

    // Bench signs, read while walking past.
    public static readonly TextStyle SignCode = new(Face.CodeBold, 104, 84);
    public static readonly TextStyle SignHouse = new(Face.Heading, 15, 18);
    public static readonly TextStyle SignName = new(Face.Heading, 17, 20);
    public static readonly TextStyle SignKind = new(Face.Text, 12, 15);
    public static readonly TextStyle Setpoint = new(Face.TextBold, 19, 27);
    public static readonly TextStyle ZoneText = new(Face.Text, 11, 27);

    // The germination report, read at a desk.
    public static readonly TextStyle ReportTitle = new(Face.Heading, 18, 23);
    public static readonly TextStyle ReportHead = new(Face.Heading, 11.5, 15);
    public static readonly TextStyle ReportText = new(Face.Text, 10, 13);
    public static readonly TextStyle ReportCell = new(Face.Text, 8, 10);
    public static readonly TextStyle ReportStrong = new(Face.TextBold, 8.5, 10);
    public static readonly TextStyle ReportMark = new(Face.Text, 8, 10);

    /// <summary>Beside every QR code stands the code for eyes: 18 pt of this face has capitals of 4.2 mm (4 mm are asked).</summary>
    public static readonly TextStyle QrCaption = new(Face.CodeBold, 18, 20);

    // The table of batches, read at arm's length.
    public static readonly TextStyle ColumnTitle = new(Face.Text, 8.5, 12);
    public static readonly TextStyle BatchCode = new(Face.CodeBold, 12.5, 15);
    public static readonly TextStyle Variety = new(Face.TextBold, 12, 15);
    public static readonly TextStyle Figure = new(Face.TextBold, 12, 15);
    public static readonly TextStyle Detail = new(Face.Text, 10, 13);
    public static readonly TextStyle StageWord = new(Face.Text, 9, 11);
    public static readonly TextStyle Foot = new(Face.Text, 8.5, 11);

    // Sheets one works from at the bench: batch and figures use the table's own styles.
    public static readonly TextStyle DayTitle = new(Face.Heading, 13, 18);

    // The 2 × 4 in label.
    public static readonly TextStyle LabelCode = new(Face.CodeBold, 36, 33);
    public static readonly TextStyle LabelHouse = new(Face.Heading, 9.5, 11.5);
    public static readonly TextStyle LabelSetpoint = new(Face.TextBold, 12, 13.5);
    public static readonly TextStyle LabelZone = new(Face.Text, 8, 13.5);
    public static readonly TextStyle LabelBatch = new(Face.CodeBold, 8.5, 11);
    public static readonly TextStyle LabelText = new(Face.Text, 8.5, 11);
    public static readonly TextStyle LabelStage = new(Face.Text, 7, 11);
    public static readonly TextStyle LabelFoot = new(Face.Text, 6.5, 8);

    // Sheets that are walked with, on a board.
    public static readonly TextStyle SheetTitle = new(Face.Heading, 20, 25);
    public static readonly TextStyle SheetSubtitle = new(Face.Text, 11, 14);
    public static readonly TextStyle SectionHead = new(Face.Heading, 13, 18);
    public static readonly TextStyle LineNumber = new(Face.CodeBold, 13, 15);
    public static readonly TextStyle Place = new(Face.CodeBold, 12, 15);
    public static readonly TextStyle Strong = new(Face.TextBold, 10.5, 13);
    public static readonly TextStyle Small = new(Face.Text, 9, 11.5);

    // Tray tags. The code's capitals are at least 4 mm: 17 pt of this face.
    public static readonly TextStyle TrayCode = new(Face.CodeBold, 24, 25);
    public static readonly TextStyle TrayVariety = new(Face.TextBold, 11, 13);
    public static readonly TextStyle TrayShare = new(Face.Text, 7, 8.5);
    public static readonly TextStyle TrayNumber = new(Face.TextBold, 11, 14);
    public static readonly TextStyle StakeCode = new(Face.CodeBold, 17.5, 17);
    public static readonly TextStyle StakeVariety = new(Face.TextBold, 9, 10.5);
    public static readonly TextStyle StakeText = new(Face.Text, 7.5, 9);
    public static readonly TextStyle StakeFoot = new(Face.Text, 5.5, 6.5);

    // The plan of a house.
    public static readonly TextStyle PlanBenchCode = new(Face.CodeBold, 10, 12);
    public static readonly TextStyle PlanCode = new(Face.CodeBold, 7, 8.5);
    public static readonly TextStyle PlanText = new(Face.Text, 7.5, 9.5);

    /// <summary>Setpoints and weeks of a time line.</summary>
    public static readonly TextStyle Setting = new(Face.TextBold, 8, 10);

    public static XPen Hairline => new(Ink, 0.5);

    public static XPen Rule => new(Ink, 1);

    public static XPen Dotted => new(Ink, 0.5) { DashPattern = [1, 3] };

    public static XPen CutLine => new(Ink, 0.5) { DashPattern = [8, 6] };

    public static XBrush InkBrush => XBrushes.Black;
}
