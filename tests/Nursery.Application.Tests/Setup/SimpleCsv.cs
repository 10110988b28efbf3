using System.Text;

namespace Nursery.Application.Tests.Setup;

/// <summary>A second reader, letter by letter after the grammar of RFC 4180, section 2: records end in CRLF, a field in quotes may
/// hold commas, line breaks and doubled quotes, and nothing else is special.</summary>
internal static class SimpleCsv
{
    public static IReadOnlyList<IReadOnlyList<string>> Read(string text)
    {
        var records = new List<IReadOnlyList<string>>();
        var record = new List<string>();
        var at = 0;
        while (at < text.Length)
        {
            record.Add(text[at] == '"' ? Quoted(text, ref at) : Plain(text, ref at));
            if (at < text.Length && text[at] == ',')
            {
                at++;
                continue;
            }

            Assert(text.AsSpan(at).StartsWith("\r\n"), "a record ends in CRLF");
            at += 2;
            records.Add(record);
            record = [];
        }

        return records;
    }

    private static string Plain(string text, ref int at)
    {
        var from = at;
        while (at < text.Length && text[at] is not (',' or '\r' or '\n'))
        {
            Assert(text[at] != '"', "a quote stands in a quoted field");
            at++;
        }

        return text[from..at];
    }

    private static string Quoted(string text, ref int at)
    {
        var value = new StringBuilder();
        for (at++; ; at++)
        {
            if (text[at] != '"')
            {
                value.Append(text[at]);
            }
            else if (at + 1 < text.Length && text[at + 1] == '"')
            {
                value.Append('"');
                at++;
            }
            else
            {
                at++;
                return value.ToString();
            }
        }
    }

    private static void Assert(bool holds, string rule) => Xunit.Assert.True(holds, rule);
}
