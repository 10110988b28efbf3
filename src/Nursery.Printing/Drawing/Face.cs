namespace Nursery.Printing.Drawing;

/// <summary>The five cuts on paper; each is two font files (Fonts/README.md).</summary>
internal enum Face
{
    Heading,
    Text,
    TextBold,
    Code,
    CodeBold,
}
