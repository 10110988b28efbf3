using System.Diagnostics;
using System.Globalization;
using Nursery.Printing;
using Nursery.Printing.TrayTags;

namespace Nursery.Benchmarks;

/// <summary>1,000 tray tags against PDFsharp and QRCoder drawing the very boxes and texts that stand in them; and the memory of 10,000.</summary>
internal static class TagsBenchmark
{
    private const int Tags = 1000;
    private const int TraysASet = 10;
    private const int Rounds = 7;
    private const double Bar = 1.3;

    public static Task<Measured> RunAsync()
    {
        var model = Model(Tags);
        var drawing = PlainDrawing.Of(TrayTagsDocument.Render(model));
        drawing.Check(drawing.Render());

        // Turn about, so that a busy machine slows both.
        TimeSpan ours = TimeSpan.MaxValue, plain = TimeSpan.MaxValue;
        for (var round = 0; round < Rounds; round++)
        {
            ours = Shorter(ours, () => TrayTagsDocument.Render(model));
            plain = Shorter(plain, () => drawing.Render());
        }

        return Task.FromResult(new Measured(
            "tags",
            string.Create(CultureInfo.InvariantCulture, $"{Tags} tray tags on letter sheets; {Memory()}"),
            ours,
            plain,
            "PDFsharp and QRCoder drawing the same boxes and texts",
            string.Create(CultureInfo.InvariantCulture, $"≤ {Bar:0.0}"),
            ours <= Bar * plain));
    }

    private static TimeSpan Shorter(TimeSpan best, Func<byte[]> work)
    {
        var watch = Stopwatch.StartNew();
        _ = work();
        return watch.Elapsed < best ? watch.Elapsed : best;
    }

    /// <summary>What is alive when a print is drawn, a tag, for 1,000 and for 10,000 tags.</summary>
    private static string Memory()
    {
        var (small, large) = (AliveATag(Tags), AliveATag(10 * Tags));
        return large <= 1.1 * small
            ? string.Create(CultureInfo.InvariantCulture, $"alive a tag {small / 1024:0.0} KiB, with 10,000 tags {large / 1024:0.0} KiB")
            : throw new InvalidOperationException($"A tag of 10,000 holds {large:0} bytes, one of 1,000 {small:0}: memory grows faster than the print.");
    }

    private static double AliveATag(int tags)
    {
        var before = GC.GetTotalMemory(forceFullCollection: true);
        using var print = new TrayTagsPrint(Model(tags));
        while (print.DrawNext())
        {
            // All of them.
        }

        return (double)(GC.GetTotalMemory(forceFullCollection: true) - before) / tags;
    }

    private static TrayTagsModel Model(int tags) => new(
        new Imprint("Kestrel Beck Nursery", "24 November 2026, 14:05", "Invented demo data"),
        "https://kestrel-beck.example",
        TagStock.Letter,
        [
            .. Enumerable.Range(1, tags / TraysASet).Select(set => new TrayTagSet(
                $"PE-{set:0000}-K-1", TraysASet, (StagePattern)(set % 6), "move off heat 14 March",
                [new TrayTagShare($"PE-{set:0000}-K", "Slow Lantern of the Upper Terraces", "Pepper", $"L-{set:0000}", "3 March 2027")])),
        ]);
}
