using System.Text.RegularExpressions;

namespace Nursery.Tidy.Tests.Files;

public sealed partial class FileTests
{
    private static readonly IReadOnlyList<string> Code =
    [
        .. Repository.Files.Where(file =>
            (file.StartsWith("src/", StringComparison.Ordinal) || file.StartsWith("tests/", StringComparison.Ordinal))
            && !file.Contains("/Migrations/", StringComparison.Ordinal)),
    ];

    [Theory]
    [InlineData(".cs", 400)]
    [InlineData(".razor", 150)]
    public void Files_Length_CanBeReadInOneGo(string extension, int mostLines)
    {
        var tooLong = Code.Where(file => file.EndsWith(extension, StringComparison.Ordinal))
            .Select(file => (file, Lines: Repository.Read(file).Count(sign => sign == '\n')))
            .Where(file => file.Lines > mostLines);

        Assert.Empty(tooLong);
    }

    [Fact]
    public void Names_SayWhatAThingIs()
    {
        var vague = Code.Where(file => file.EndsWith(".cs", StringComparison.Ordinal))
            .Where(file => VagueName().IsMatch(Path.GetFileNameWithoutExtension(file)));

        Assert.Empty(vague);
    }

    [Fact]
    public void Code_LeavesNothingForLater()
    {
        var guilty = Code.Where(file => !file.Contains("Nursery.Tidy.Tests", StringComparison.Ordinal)
                && (file.EndsWith(".cs", StringComparison.Ordinal) || file.EndsWith(".razor", StringComparison.Ordinal) || file.EndsWith(".js", StringComparison.Ordinal)))
            .SelectMany(file => Repository.Read(file).Split('\n').Select((line, index) => (file, index, line)))
            .Where(row => LeftForLater().IsMatch(row.line))
            .Select(row => $"{row.file}:{row.index + 1} {row.line.Trim()}");

        Assert.Empty(guilty);
    }

    [Fact]
    public void Namespaces_FollowTheFolders()
    {
        var wrong = Code.Where(file => file.EndsWith(".cs", StringComparison.Ordinal) && file.StartsWith("src/", StringComparison.Ordinal))
            .Where(file => NamespaceOf(file) is { } name && name != Path.GetDirectoryName(file)!["src/".Length..].Replace('/', '.'));

        Assert.Empty(wrong);
    }

    private static string? NamespaceOf(string file)
    {
        var match = NamespaceLine().Match(Repository.Read(file));
        return match.Success ? match.Groups[1].Value : null;
    }

    [GeneratedRegex(@"(Manager|Helper|Helpers|Utils|Util|Common|Base)$")]
    private static partial Regex VagueName();

    [GeneratedRegex(@"NotImplementedException|\bTODO\b|\bFIXME\b|\bHACK\b|Skip\s*=\s*""|catch\s*(\(Exception[^)]*\))?\s*\{\s*\}")]
    private static partial Regex LeftForLater();

    [GeneratedRegex(@"^namespace ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex NamespaceLine();
}
