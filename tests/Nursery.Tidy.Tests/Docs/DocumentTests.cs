using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Nursery.Tidy.Tests.Docs;

public sealed partial class DocumentTests
{
    [Fact]
    public void Documents_TheirLinks_LeadSomewhere()
    {
        var broken =
            from file in Repository.Files.Where(file => file.EndsWith(".md", StringComparison.Ordinal))
            from Match link in MarkdownLink().Matches(Repository.Read(file))
            let target = link.Groups[1].Value.Split('#')[0]
            where target.Length > 0 && !target.Contains("://", StringComparison.Ordinal) && !target.StartsWith("mailto:", StringComparison.Ordinal)
            let path = Path.Combine(Repository.Root, Path.GetDirectoryName(file)!, target)
            where !Path.Exists(path)
            select $"{file} → {target}";

        Assert.Empty(broken);
    }

    [Fact]
    public void Packages_EachOne_HasItsLineInDependencies()
    {
        var document = Repository.Read("docs/dependencies.md");
        var missing = XDocument.Parse(Repository.Read("src/Directory.Packages.props")).Descendants("PackageVersion")
            .Select(package => (Name: package.Attribute("Include")!.Value, Version: package.Attribute("Version")!.Value))
            .Where(package => !document.Split('\n').Any(line =>
                line.Contains(package.Name, StringComparison.Ordinal) && line.Contains(package.Version, StringComparison.Ordinal)));

        Assert.Empty(missing);
    }

    [Fact]
    public void TopLevel_HasWhatANewcomerLooksFor()
    {
        foreach (var expected in new[]
        {
            "README.md", "DEVELOPERS.md", "Nursery.sln", "docker-compose.yml", "global.json", ".editorconfig", ".ci/run", "deploy/run.sh",
            "deploy/Dockerfile", "tests/run.sh", "docs/architecture.md", "docs/glossary.md", "docs/imports.md", "docs/dependencies.md",
            "docs/operations.md", "docs/api.md", "docs/papers.md",
        })
        {
            Assert.Contains(expected, Repository.Files);
        }
    }

    [Fact]
    public void WhereIsItTable_NamesPathsThatExist()
    {
        var paths = BacktickedPath().Matches(Repository.Read("DEVELOPERS.md")).Select(match => match.Groups[1].Value)
            .Where(path => !Path.Exists(Path.Combine(Repository.Root, path)));

        Assert.Empty(paths);
    }

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex MarkdownLink();

    [GeneratedRegex(@"`((?:src|tests|docs|deploy|seed-scenario)/[\w./-]+)`")]
    private static partial Regex BacktickedPath();
}
