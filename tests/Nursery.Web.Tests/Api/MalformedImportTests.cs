using System.Text;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Order files that cannot be read, or break a rule: refused in words, and nothing of them stored.</summary>
[Collection(ApiCollection.Name)]
public sealed class MalformedImportTests(ApiServer server)
{
    private const string Header = "order,customer,variety,plants,ready_on\n";
    private const string Path = "/api/v1/orders/import";

    public static TheoryData<string, byte[], int, string, string> Files => new()
    {
        { "empty", [], 400, "Malformed", "header" },
        { "blank", "  \n"u8.ToArray(), 400, "Malformed", "header" },
        { "wrong header", Bytes("order,customer,variety,plants,ready\nO,C,V,1,2026-06-01\n"), 400, "Malformed", "header" },
        { "UTF-16", Encoding.Unicode.GetBytes(Header + "O,C,V,1,2026-06-01\n"), 400, "Malformed", "file" },
        { "Latin-1", Encoding.Latin1.GetBytes(Header + "O,Bäume,V,1,2026-06-01\n"), 400, "Malformed", "file" },
        { "NUL", Bytes(Header + "O,C\0,V,1,2026-06-01\n"), 400, "Malformed", "file" },
        { "quote never closed", Bytes(Header + "O,\"C,PE-LANT,1,2026-06-01\nO,D,PE-LANT,1,2026-06-02\n"), 400, "Malformed", "quote" },
        { "quote inside a field", Bytes(Header + "O,C\"x\"y,PE-LANT,1,2026-06-01\n"), 400, "Malformed", "quote" },
        { "a field too many", Bytes(Header + "O,C,PE-LANT,1,2026-06-01,x\n"), 400, "Malformed", "line" },
        { "a field too few", Bytes(Header + "O,C,PE-LANT,1\n"), 400, "Malformed", "line" },
        { "a line of 1 MB", Bytes(Header + "O," + new string('c', 1 << 20) + ",PE-LANT,1,2026-06-01\n"), 413, "TooLarge", "line" },
        { "50,001 lines", Lines(50_001), 413, "TooLarge", "file" },
        { "17 MB", new byte[17 << 20], 413, "TooLarge", "body" },
        { "negative plants", Bytes(Header + "O,C,PE-LANT,-5,2026-06-01\n"), 422, "ImportLinesRefused", "plants" },
        { "plants in words", Bytes(Header + "O,C,PE-LANT,many,2026-06-01\n"), 422, "ImportLinesRefused", "plants" },
        { "no such variety", Bytes(Header + "O,C,XX-NONE,5,2026-06-01\n"), 422, "ImportLinesRefused", "variety" },
        { "no such day", Bytes(Header + "O,C,PE-LANT,5,2026-02-30\n"), 422, "ImportLinesRefused", "ready_on" },
        { "day in words", Bytes(Header + "O,C,PE-LANT,5,tomorrow\n"), 422, "ImportLinesRefused", "ready_on" },
        { "formula as customer", Bytes(Header + "O,=1+1,PE-LANT,5,2026-06-01\n"), 422, "ImportLinesRefused", "customer" },
        { "formula as order", Bytes(Header + "@SUM(A1),C,PE-LANT,5,2026-06-01\n"), 422, "ImportLinesRefused", "order" },
        { "formula as variety", Bytes(Header + "O,C,+PE,5,2026-06-01\n"), 422, "ImportLinesRefused", "variety" },
        { "no customer", Bytes(Header + "O,,PE-LANT,5,2026-06-01\n"), 422, "ImportLinesRefused", "customer" },
        { "the same line twice", Bytes(Header + "O,C,PE-LANT,5,2026-06-01\nO,C,PE-LANT,5,2026-06-01\n"), 422, "ImportLinesRefused", "order" },
    };

    [Theory]
    [MemberData(nameof(Files), DisableDiscoveryEnumeration = true)]
    public async Task Import_WrongFile_NamesFieldValueAndAllowedAndStoresNothing(
        string what, byte[] file, int status, string code, string field)
    {
        ArgumentNullException.ThrowIfNull(file);
        var before = await server.RowsAsync();
        foreach (var path in new[] { Path, Path + "?dryRun=true" })
        {
            using var response = await server.Client.PostAsync(path, Wire.Csv(file));
            var problem = await response.ProblemAsync(status, code);
            var error = problem.Error(field);
            Assert.True(error.Text("value").Length <= 101, $"{what}: a value of {error.Text("value").Length} characters");
            if (status == 422)
            {
                Assert.True(error.GetProperty("line").GetInt32() >= 2, what);
                Assert.Equal(path != Path, problem.GetProperty("dryRun").GetBoolean());
                Assert.Equal(0, problem.Whole("created"));
            }
        }

        Assert.Equal(before, await server.RowsAsync());
    }

    [Fact]
    public async Task Import_OneWrongLineOfThree_StoresNoneAndNamesEveryFault()
    {
        var before = await server.RowsAsync();
        using var response = await server.Client.PostAsync(
            Path, Wire.Csv(Header + "O-9,C,PE-LANT,5,2026-06-01\nO-9,C,PE-LANT,0,2026-13-01\nO-9,C,NONE,5,2026-06-01\n"));
        var problem = await response.ProblemAsync(422, "ImportLinesRefused");
        Assert.Equal(
            ["3 plants 0", "3 ready_on 2026-13-01", "4 variety NONE"],
            problem.GetProperty("errors").EnumerateArray().Select(error => $"{error.Whole("line")} {error.Text("field")} {error.Text("value")}"));
        Assert.Equal(3, problem.Whole("rows"));
        Assert.Equal(before, await server.RowsAsync());
    }

    [Fact]
    public async Task Import_50000Lines_IsRead()
    {
        using var response = await server.Client.PostAsync(Path + "?dryRun=true", Wire.Csv(Lines(50_000)));
        var result = await response.JsonAsync(System.Net.HttpStatusCode.OK);
        Assert.Equal((50_000, 50_000), (result.Whole("rows"), result.Whole("created")));
    }

    [Theory]
    [InlineData("application/json", 415, "UnsupportedContent")]
    [InlineData("application/vnd.ms-excel", 415, "UnsupportedContent")]
    [InlineData("text/csv; charset=iso-8859-1", 400, "Malformed")]
    [InlineData("text/csv; charset=utf-16", 400, "Malformed")]
    public async Task Import_OtherContentType_IsRefused(string contentType, int status, string code)
    {
        using var response = await server.Client.PostAsync(Path, Wire.Csv(Bytes(Header), contentType));
        Assert.Equal(contentType, (await response.ProblemAsync(status, code)).Error("Content-Type").Text("value"));
    }

    [Theory]
    [InlineData("text/csv")]
    [InlineData("text/csv; charset=utf-8")]
    [InlineData("text/csv; charset=\"UTF-8\"; header=present")]
    [InlineData("TEXT/CSV")]
    public async Task Import_CsvInUtf8_IsRead(string contentType)
    {
        using var response = await server.Client.PostAsync(
            Path + "?dryRun=true", Wire.Csv([0xEF, 0xBB, 0xBF, .. Bytes(Header + "O-7,Bäume,PE-LANT,5,2026-06-01\r\n")], contentType));
        Assert.Equal(1, (await response.JsonAsync(System.Net.HttpStatusCode.OK)).Whole("created"));
    }

    [Theory]
    [InlineData("yes")]
    [InlineData("1")]
    [InlineData("True")]
    public async Task Import_DryRunInOtherWords_IsRefusedRatherThanStored(string dryRun)
    {
        var before = await server.RowsAsync();
        using var response = await server.Client.PostAsync($"{Path}?dryRun={dryRun}", Wire.Csv(Header + "O-8,C,PE-LANT,5,2026-06-01\n"));
        Assert.Equal(dryRun, (await response.ProblemAsync(400, "Malformed")).Error("dryRun").Text("value"));
        Assert.Equal(before, await server.RowsAsync());
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static byte[] Lines(int count) => Bytes(Header + string.Concat(
        Enumerable.Range(1, count).Select(number => $"L-{number},Many Lines,PE-LANT,5,2026-06-01\n")));
}
