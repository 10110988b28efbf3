using System.Globalization;
using Nursery.Printing.SowingSheets;
using Nursery.Printing.Tests.Sheets;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Printing.Tests.SowingSheets;

public class SowingSheetDocumentTests
{
    private const double _mm = 72 / 25.4;

    private static readonly string[] _cautions =
    [
        "Treated seed: wear gloves, follow its label, never use it as food or feed.",
        "Wet peat, perlite and gypsum before you stir them; wear a respirator where they dust; open bagged mixes away from the face and wash your hands.",
    ];

    [Fact]
    public void Render_OneLine_PrintsAllItsFactsABoxAndTheCautions()
    {
        using var read = new Readback(SowingSheetDocument.Render(Model(Paper.Letter, Days(1))));

        var page = Assert.Single(read.Pages);
        string[] facts =
        [
            "Monday, 2 March 2026", "1 batch, 3 trays, 216 seeds", "PE-0-K", "‘Inkwell’", "Pepper", "lot L-0442, treated", "3 trays of 72", "1 a cell",
            "216", "1/4 in, cover", "light or dark", "1A, 1–3", .. _cautions,
        ];
        Assert.All(facts, fact => Assert.Contains(Readback.Squeeze(fact), read.Letters, StringComparison.Ordinal));
        Assert.Contains(page.Paths, path => path.GetBoundingRectangle() is { } box && Math.Abs(box.Width - box.Height) < 0.5 && box.Width > 4 * _mm);
        Assert.Equal("Sowing sheet – Kestrel Beck Nursery", read.Title);
    }

    [Fact]
    public void Render_LongDay_RepeatsItsTitleOnEveryPageAndEndsNoPageWithATitle()
    {
        using var read = new Readback(SowingSheetDocument.Render(Model(Paper.A4, Days(120))));

        Assert.True(read.Pages.Count > 2);
        Assert.All(read.Pages, page =>
        {
            var letters = Readback.LettersOf(page);
            Assert.Contains("seedstotake", letters, StringComparison.Ordinal);
            Assert.False(letters[..letters.IndexOf("KestrelBeck", StringComparison.Ordinal)].EndsWith("whereto", StringComparison.Ordinal));
        });
        Assert.All(read.Pages.Skip(1), page => Assert.Matches("continued|March2026", Readback.LettersOf(page)));
    }

    [Fact]
    public void Render_SameModelTwice_GivesTheSameBytes() => Assert.Equal(
        SowingSheetDocument.Render(Model(Paper.A4, Days(5))), SowingSheetDocument.Render(Model(Paper.A4, Days(5))));

    internal static SowingSheetModel Model(Paper paper, IReadOnlyList<SowingDay> days) => new(
        new Imprint("Kestrel Beck Nursery", "24 November 2026, 14:05", "Invented demo data"), paper, "2 March 2026 to 8 March 2026", days, _cautions);

    internal static List<SowingDay> Days(int lines) =>
    [
        .. Enumerable.Range(0, lines).Chunk(60).Select((some, day) => new SowingDay(
            string.Create(CultureInfo.InvariantCulture, $"{(DayOfWeek)((day + 1) % 7)}, {2 + day} March 2026"),
            lines == 1 ? "1 batch, 3 trays, 216 seeds" : $"{some.Length} batches",
            [.. some.Select(Line)])),
    ];

    /// <summary>The most a batch may have: 10,000 trays of 512 cells, 50 seeds a cell.</summary>
    internal static SowingSheetModel Wide(Paper paper)
    {
        var longest = SampleSheets.Longest;
        var wide = new SowingLine(
            SampleSheets.LongestCode, longest, new string('W', 100), SampleSheets.LongestLot, longest, longest, "256,000,000", longest, longest, longest);
        return Model(paper, [new SowingDay(new string('M', 200), longest, [wide, Line(1), wide with { Lot = null, Variety = new string('W', 100) }])]);
    }

    internal static SowingLine Line(int number)
    {
        var kind = number % 3;
        return new SowingLine(
            $"PE-{number}-K", kind == 0 ? "‘Inkwell’" : kind == 1 ? SampleSheets.Longest : "‘Żółty Łan’", "Pepper", "L-0442, treated",
            "3 trays of 72", "1 a cell", "216", kind == 2 ? "on the surface, no cover" : "1/4 in, cover", "light or dark", "1A, 1–3");
    }
}
