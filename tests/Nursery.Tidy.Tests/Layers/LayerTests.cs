using System.Xml.Linq;

namespace Nursery.Tidy.Tests.Layers;

public sealed class LayerTests
{
    /// <summary>Who may know whom: the table of docs/architecture.md.</summary>
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Nursery.Agronomy"] = [],
        ["Nursery.Past"] = [],
        ["Nursery.Planning"] = [],
        ["Nursery.Bounds"] = ["Nursery.Planning"],
        ["Nursery.Printing"] = [],
        ["Nursery.Domain"] = ["Nursery.Agronomy"],
        ["Nursery.Data"] = ["Nursery.Agronomy", "Nursery.Domain"],
        ["Nursery.Application"] = ["Nursery.Agronomy", "Nursery.Data", "Nursery.Domain", "Nursery.Past", "Nursery.Planning", "Nursery.Printing"],
        ["Nursery.Web"] = ["Nursery.Agronomy", "Nursery.Application", "Nursery.Domain"],
    };

    [Fact]
    public void SourceProjects_TheirReferences_AreTheTable()
    {
        var found = Repository.Files.Where(file => file.StartsWith("src/", StringComparison.Ordinal) && file.EndsWith(".csproj", StringComparison.Ordinal))
            .ToDictionary(file => Path.GetFileNameWithoutExtension(file), References);

        Assert.Equal(Allowed.Keys.Order(), found.Keys.Order());
        foreach (var (project, references) in found)
        {
            Assert.True(
                references.All(Allowed[project].Contains),
                $"{project} references {string.Join(", ", references)}; it may know {string.Join(", ", Allowed[project])}");
        }
    }

    [Fact]
    public void SourceProjects_TransitiveReferences_AreOff() =>
        Assert.Contains(
            "<DisableTransitiveProjectReferences>true</DisableTransitiveProjectReferences>",
            Repository.Read("src/Directory.Build.props"), StringComparison.Ordinal);

    [Theory]
    [InlineData("NurseryDbContext")]
    [InlineData("Microsoft.EntityFrameworkCore")]
    [InlineData("using Npgsql")]
    [InlineData("Npgsql.")]
    [InlineData("Nursery.Data")]
    [InlineData("Nursery.Past")]
    [InlineData("Nursery.Planning")]
    [InlineData("Nursery.Printing")]
    public void Web_NamesNothingBelowTheUseCases(string name)
    {
        var guilty = Repository.Files
            .Where(file => file.StartsWith("src/Nursery.Web/", StringComparison.Ordinal)
                && (file.EndsWith(".cs", StringComparison.Ordinal) || file.EndsWith(".razor", StringComparison.Ordinal)))
            .Where(file => Repository.Read(file).Contains(name, StringComparison.Ordinal));

        Assert.Empty(guilty);
    }

    private static string[] References(string file) =>
    [
        // A project that is only built beside and started as a program is not known.
        .. XDocument.Parse(Repository.Read(file)).Descendants("ProjectReference")
            .Where(reference => reference.Attribute("ReferenceOutputAssembly")?.Value != "false")
            .Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value)),
    ];
}
