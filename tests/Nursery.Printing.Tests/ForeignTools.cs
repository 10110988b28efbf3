using System.Diagnostics;

namespace Nursery.Printing.Tests;

/// <summary>Programs of others that look at our paper: pdftoppm (Debian poppler-utils) and zbarimg (zbar-tools).</summary>
internal static class ForeignTools
{
    /// <summary>Renders pages as grey pictures and decodes every QR code on them, page by page.</summary>
    public static IReadOnlyList<string[]> QrCodes(byte[] pdf, int dotsPerInch)
    {
        var folder = Directory.CreateTempSubdirectory("printing-");
        try
        {
            var file = Path.Combine(folder.FullName, "tags.pdf");
            File.WriteAllBytes(file, pdf);
            Run("pdftoppm", "-gray", "-r", dotsPerInch.ToString(System.Globalization.CultureInfo.InvariantCulture), file, Path.Combine(folder.FullName, "p"));
            return [.. folder.GetFiles("p*.pgm").OrderBy(picture => picture.Name, StringComparer.Ordinal).Select(picture =>
                Run("zbarimg", "--quiet", "--raw", "--set", "disable", "--set", "qrcode.enable", picture.FullName)
                    .Split('\n', StringSplitOptions.RemoveEmptyEntries))];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

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
