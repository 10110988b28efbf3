using System.Globalization;
using Nursery.Agronomy.Standards;
using Xunit;

namespace Nursery.Agronomy.Tests.Standards;

/// <summary>Source: 7 CFR 201.31 (US Department of Agriculture, 1994 text), tests/reference/01a_fsa_min_germination.csv, whole.</summary>
public sealed class StandardKindTests
{
    [Fact]
    public void Of_EveryPrintedKind_HasItsPublishedMinimum()
    {
        var rows = Lines("tests", "reference", "01a_fsa_min_germination.csv").ConvertAll(Printed);

        Assert.Equal(68, rows.Count);
        Assert.All(rows, row => Assert.Equal(row.Percent, StandardKind.Of(row.Kind)!.Minimum.Percent, 1e-9));
        Assert.Equal(rows.Select(row => row.Kind), GerminationMinimum.All.Select(standard => standard.Kind));
    }

    [Theory]
    [InlineData("Summer squash", "Squash")]
    [InlineData("muskmelon", "Melon")]
    [InlineData(" Swiss Chard ", "Chard, Swiss")]
    [InlineData("Pak choi", "Pak-choi")]
    [InlineData("lima bean", "Bean, lima")]
    [InlineData("PEPPER", "Pepper")]
    public void Of_NamePeopleUse_IsThePrintedKind(string name, string kind) => Assert.Equal(kind, StandardKind.Of(name)!.Kind);

    /// <summary>The rule is for vegetables: it names no basil and no flowers.</summary>
    [Fact]
    public void Of_StartingCrops_OnlyBasilAndTheFlowersHaveNone() =>
        Assert.Equal(
            ["Basil", "Calendula", "Marigold", "Petunia"],
            Lines("seed-scenario", "crops.csv").ConvertAll(line => line.Split(',')[1]).Where(name => StandardKind.Of(name) is null).Order());

    private static (string Kind, double Percent) Printed(string line)
    {
        // The kind is the only field in quotes; the percent comes right after it.
        var kind = line.Contains('"', StringComparison.Ordinal) ? line.Split('"')[1] : line.Split(',')[1];
        var after = line[(line.IndexOf(kind, StringComparison.Ordinal) + kind.Length)..].TrimStart('"').Split(',');
        return (kind, double.Parse(after[1], CultureInfo.InvariantCulture));
    }

    private static List<string> Lines(params string[] path)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Nursery.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("no folder above the test holds Nursery.sln");
        }

        return [.. File.ReadAllLines(Path.Combine([folder.FullName, .. path])).Skip(1)];
    }
}
