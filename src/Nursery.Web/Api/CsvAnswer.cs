using System.Net.Mime;

namespace Nursery.Web.Api;

/// <summary>A CSV file to keep (RFC 4180, UTF-8, with a header row).</summary>
internal static class CsvAnswer
{
    private const string Csv = $"{MediaTypeNames.Text.Csv}; charset=utf-8; header=present";

    public static IResult Of(byte[] file, string name) => Results.File(file, Csv, $"{name}.csv");

    /// <summary>Written while it is read.</summary>
    public static IResult Streamed(Func<Stream, Task> write, string name) => Results.Stream(write, Csv, $"{name}.csv");
}
