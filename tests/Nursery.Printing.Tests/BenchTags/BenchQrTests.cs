using Nursery.Printing.BenchTags;
using Nursery.Printing.Drawing;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Printing.Tests.BenchTags;

public class BenchQrTests
{
    private const double _mm = 72 / 25.4;

    [Theory]
    [InlineData(Paper.Letter, 150)]
    [InlineData(Paper.A4, 150)]
    [InlineData(Paper.Roll, 203)]
    public void Render_WithPublicAddress_ForeignDecoderReadsEveryBench(Paper paper, int dotsPerInch)
    {
        string[] codes = ["2A", "2B", "2C", "HEAT-12", "North bench"];
        var pdf = BenchTagsDocument.Render(SampleTags.Model(paper, [.. codes.Select(code => SampleTags.Bench(code))]));

        var read = ForeignTools.QrCodes(pdf, dotsPerInch);

        string[] expected =
        [
            "HTTPS://KESTREL-BECK.EXAMPLE/B/2A", "HTTPS://KESTREL-BECK.EXAMPLE/B/2B", "HTTPS://KESTREL-BECK.EXAMPLE/B/2C",
            "HTTPS://KESTREL-BECK.EXAMPLE/B/HEAT-12", "HTTPS://KESTREL-BECK.EXAMPLE/B/North%20bench",
        ];
        Assert.Equal(expected.Order(StringComparer.Ordinal), read.SelectMany(page => page).Order(StringComparer.Ordinal));
        Assert.All(read, page => Assert.InRange(page.Length, 1, 2));
    }

    [Theory]
    [InlineData(Paper.Letter, 150)]
    [InlineData(Paper.A4, 150)]
    [InlineData(Paper.Roll, 203)]
    public void Render_WithoutPublicAddress_CarriesOnlyTheCode(Paper paper, int dotsPerInch)
    {
        var pdf = BenchTagsDocument.Render(SampleTags.Model(paper, [SampleTags.Bench("2A")], address: null));

        Assert.Equal(["2A"], Assert.Single(ForeignTools.QrCodes(pdf, dotsPerInch)));
    }

    [Fact]
    public void Render_ContinuedSheets_HaveNoSecondCode()
    {
        var pdf = BenchTagsDocument.Render(SampleTags.Model(Paper.Letter, [SampleTags.Bench("2A", rows: 40)], address: null));

        Assert.Equal(["2A"], ForeignTools.QrCodes(pdf, 150).SelectMany(page => page));
    }

    [Theory]
    [InlineData("2A")]
    [InlineData("HTTPS://KESTREL-BECK.EXAMPLE/B/2A")]
    [InlineData("HTTPS://A-RATHER-LONG-HOST.OF-A-NURSERY.WITH-MANY-HOUSES.EXAMPLE/B/HEAT-12")]
    [InlineData("HTTPS://A-RATHER-LONG-HOST.OF-A-NURSERY.WITH-MANY-HOUSES.EXAMPLE/AND/A/PATH/BEFORE/THE/CODE/OF/THE/BENCH/B/HEATED-BENCH-12")]
    public void OnSign_AnyPayload_IsAtLeast60MmAnd1Point2MmAModule(string payload)
    {
        var qr = Qr.Of(payload);
        var module = QrSize.OnSign(qr) / _mm;

        Assert.True(module >= 1.2 - 1e-9, $"module {module} mm");
        Assert.InRange(module * qr.Modules, 60 - 1e-9, 66);
    }

    [Theory]
    [InlineData("2A", 9)]
    [InlineData("HTTPS://KESTREL-BECK.EXAMPLE/B/2A", 7)]
    [InlineData("HTTPS://A-RATHER-LONG-HOST.OF-A-NURSERY.WITH-MANY-HOUSES.EXAMPLE/B/HEAT-12", 5)]
    public void OnLabel_AnyPayload_IsWholePrinterDots(string payload, int dots)
    {
        // 4 dots a module or more (Denso Wave, "QR Code print" notes); 203 dots an inch: common label printers.
        var qr = Qr.Of(payload);
        var module = QrSize.OnLabel(qr);

        Assert.Equal(dots, module * 203 / 72, 1e-9);
        Assert.InRange(module * qr.Modules / _mm, 28, 33.5);
    }

    [Fact]
    public void OnLabel_AddressTooLongForALabel_IsRefusedWithNumbers()
    {
        var refused = Assert.Throws<ArgumentException>(() => QrSize.OnLabel(Qr.Of("HTTPS://" + new string('A', 250))));

        Assert.Contains("4 are needed", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 21)]
    [InlineData(20, 25)]
    [InlineData(29, 25)]
    [InlineData(30, 29)]
    [InlineData(47, 29)]
    [InlineData(48, 33)]
    public void Of_CapitalsAtLevelQ_FillsVersionsAsTheStandardSays(int length, int side)
    {
        // ISO/IEC 18004, character capacity at level Q, alphanumeric: version 1 16, version 2 29, version 3 47 (from memory);
        // side 17 + 4 × version; quiet zone 4 modules on each side.
        Assert.Equal(side + 8, Qr.Of(new string('K', length)).Modules);
    }

    [Theory]
    [InlineData("2A", null, "2A")]
    [InlineData("2A", "  ", "2A")]
    [InlineData("2A", "https://nursery.example", "HTTPS://NURSERY.EXAMPLE/B/2A")]
    [InlineData("2A", "https://nursery.example/", "HTTPS://NURSERY.EXAMPLE/B/2A")]
    [InlineData("2A", "http://192.168.1.20:5080", "HTTP://192.168.1.20:5080/B/2A")]
    [InlineData("2A", "https://nursery.example/Plants/", "HTTPS://NURSERY.EXAMPLE/Plants/B/2A")]
    [InlineData("é/1", "https://nursery.example", "HTTPS://NURSERY.EXAMPLE/B/%C3%A9%2F1")]
    public void Of_Address_IsShortAndSameAddress(string code, string? address, string expected) =>
        Assert.Equal(expected, TagAddress.Of('B', code, address));

    [Theory]
    [InlineData("nursery.example")]
    [InlineData("ftp://nursery.example")]
    [InlineData("javascript:alert(1)")]
    public void Of_AddressOfAnotherKind_IsRefused(string address) =>
        Assert.Throws<ArgumentException>(() => TagAddress.Of('B', "2A", address));
}
