using System.Diagnostics;
using System.Globalization;
using PdfSharp.Pdf.IO;

namespace Nursery.Printing.Pictures;

/// <summary>
/// Pictures of a PDF's pages by pdftoppm (Debian package poppler-utils), as whoever prints would see them. The program gets the
/// file on its standard input and writes the picture on its standard output: nothing is stored.
/// </summary>
public static class PdfPictures
{
    private const string _program = "pdftoppm";

    private static readonly TimeSpan _longest = TimeSpan.FromSeconds(20);

    /// <summary>Whether the program is installed; without it there are papers, but no pictures of them.</summary>
    public static bool Available { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, _program)));

    public static int PagesOf(byte[] pdf)
    {
        using var stream = new MemoryStream(pdf);
        using var document = PdfReader.Open(stream, PdfDocumentOpenMode.Import);
        return document.PageCount;
    }

    /// <param name="pdf">The file.</param>
    /// <param name="page">From 1.</param>
    /// <param name="width">Of the picture, in pixels.</param>
    /// <param name="cancellation">Ends the program.</param>
    /// <returns>A PNG.</returns>
    /// <exception cref="InvalidOperationException">The program could not draw it.</exception>
    public static async Task<byte[]> DrawAsync(byte[] pdf, int page, int width, CancellationToken cancellation = default)
    {
        var number = page.ToString(CultureInfo.InvariantCulture);
        string[] arguments =
            ["-png", "-singlefile", "-f", number, "-l", number, "-scale-to-x", width.ToString(CultureInfo.InvariantCulture), "-scale-to-y", "-1", "-"];
        var start = new ProcessStartInfo(_program, arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{_program} did not start.");
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        stop.CancelAfter(_longest);
        try
        {
            using var picture = new MemoryStream();
            var error = process.StandardError.ReadToEndAsync(stop.Token);
            var output = process.StandardOutput.BaseStream.CopyToAsync(picture, stop.Token);
            await process.StandardInput.BaseStream.WriteAsync(pdf, stop.Token);
            process.StandardInput.Close();
            await output;
            await process.WaitForExitAsync(stop.Token);
            return process.ExitCode == 0 && picture.Length > 0
                ? picture.ToArray()
                : throw new InvalidOperationException($"{_program} ended with {process.ExitCode}: {await error}");
        }
        finally
        {
            if (!process.HasExited)
                process.Kill(entireProcessTree: true);
        }
    }
}
