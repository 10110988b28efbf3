namespace Nursery.Printing.TrayTags;

/// <summary>Tray tags as a PDF file, one a tray. May be called from several threads at once.</summary>
public static class TrayTagsDocument
{
    /// <exception cref="ArgumentException">The public address is no http or https address, or too long for a code on a tag.</exception>
    public static byte[] Render(TrayTagsModel model)
    {
        using var print = new TrayTagsPrint(model);
        while (print.DrawNext())
        {
            // Until the last page.
        }

        return print.Save();
    }
}
