using System.Diagnostics;

namespace Nursery.Testing.Papers;

/// <summary>Programs of others that look at our paper: pdftoppm (Debian poppler-utils) and zbarimg (zbar-tools).</summary>
public static class ForeignTools
{
    /// <summary>Renders pages as grey pictures and decodes every QR code on them, page by page.</summary>
    public static IReadOnlyList<string[]> QrCodes(byte[] pdf, int dotsPerInch) => InFolder(pdf, (file, folder) =>
    {
        Run("pdftoppm", "-gray", "-r", $"{dotsPerInch}", file, Path.Combine(folder.FullName, "p"));
        return (IReadOnlyList<string[]>)[.. folder.GetFiles("p*.pgm").OrderBy(picture => picture.Name, StringComparer.Ordinal).Select(Decode)];
    });

    /// <summary>
    /// Looks at areas of a page one by one, as a camera looks at one tag of a sheet: zbarimg mixes the corners of codes up when ten stand in a
    /// picture, and then misses some.
    /// </summary>
    /// <param name="pdf">The paper.</param>
    /// <param name="page">Its number.</param>
    /// <param name="dotsPerInch">As the printer it is meant for, or coarser.</param>
    /// <param name="areas">In points from the top left corner.</param>
    /// <returns>All codes found in any of the areas.</returns>
    public static string[] QrCodesAt(byte[] pdf, int page, int dotsPerInch, IEnumerable<LookedAt> areas) => InFolder(pdf, (file, folder) => areas.SelectMany((area, i) =>
    {
        int Dots(double points) => (int)(points * dotsPerInch / 72);
        var picture = Path.Combine(folder.FullName, $"a{i}");
        Run(
            "pdftoppm", "-gray", "-singlefile", "-r", $"{dotsPerInch}", "-f", $"{page}", "-l", $"{page}", "-x", $"{Dots(area.Left)}", "-y", $"{Dots(area.Top)}",
            "-W", $"{Dots(area.Width)}", "-H", $"{Dots(area.Height)}", file, picture);
        return Decode(new FileInfo(picture + ".pgm"));
    }).ToArray());

    private static T InFolder<T>(byte[] pdf, Func<string, DirectoryInfo, T> look)
    {
        var folder = Directory.CreateTempSubdirectory("printing-");
        try
        {
            var file = Path.Combine(folder.FullName, "paper.pdf");
            File.WriteAllBytes(file, pdf);
            return look(file, folder);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string[] Decode(FileInfo picture) => Run("zbarimg", "--quiet", "--raw", "--set", "disable", "--set", "qrcode.enable", picture.FullName)
        .Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static string Run(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        // zbarimg ends with 4 when a picture holds no code.
        return process.ExitCode == 0 || (process.ExitCode == 4 && program == "zbarimg") ? output : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {error.Result}");
    }
}
