using Bunit;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Setup;
using Xunit;

namespace Nursery.Web.Tests.Setup;

public sealed class SetupPanelTests : BunitContext
{
    [Fact]
    public void TwoValuesNote_Conflict_ShowsBothInTheSitesUnit()
    {
        var info = new SetupListInfo("houses", "Houses", "house", Right.Plan, [new("length_cm", "Length", ColumnKind.Centimeters)]);
        var conflict = new ChangedMeanwhile("The house H1", 3, [new TwoValues("length_cm", "254", "508")]);

        var note = Render<TwoValuesNote>(parameters => parameters.Add(p => p.Conflict, conflict).Add(p => p.Info, info).Add(p => p.Units, Units.UsCustomary));

        Assert.Equal(["Length", "100 in", "200 in"], note.FindAll("td").Select(cell => cell.TextContent));
    }

    [Theory]
    [InlineData("germination", "10 1020 trays")]
    [InlineData("growing", "12 1020 trays")]
    public void SpaceProposal_HeatMat_LaysTraysOneWay(string kind, string sentence)
    {
        (int Spaces, int Rows) taken = default;
        var fields = new Dictionary<string, string> { ["length_cm"] = "153", ["width_cm"] = "153", ["kind"] = kind };

        var proposal = Render<SpaceProposal>(parameters => parameters.Add(p => p.Fields, fields).Add(p => p.OnTake, value => taken = value));
        proposal.Find("button").Click();

        Assert.StartsWith(sentence, proposal.Find("p").TextContent, StringComparison.Ordinal);
        Assert.Equal(sentence.Split(' ')[0], taken.Spaces.ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void SetupImportOutcome_DryRun_ShowsWhatWouldChange()
    {
        var change = new SetupChange("H1", ChangeKind.Changed, [new FieldChange("name", "Old", "New")], 2);
        var result = new SetupImport(true, 2, 1, 1, 0, [change], ["TO"], []);

        var outcome = Render<SetupImportOutcome>(parameters => parameters.Add(p => p.Name, "houses.csv").Add(p => p.Result, result));

        Assert.Contains("1 to create, 1 to change, 0 unchanged", outcome.Markup, StringComparison.Ordinal);
        Assert.Equal(["H1", "name", "Old", "New"], outcome.FindAll("td").Select(cell => cell.TextContent));
        Assert.Contains("starting profiles", outcome.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void HousePlans_Benches_StandToScaleWithTheirSpaces()
    {
        var house = Row("H1", ("name", "House 1"), ("length_cm", "1800"), ("width_cm", "900"));
        var bench = Row("1A", ("house", "H1"), ("kind", "germination"), ("spaces", "54"), ("x_cm", "90"), ("y_cm", "101"), ("length_cm", "500"), ("width_cm", "165"));

        var plan = Render<HousePlans>(parameters => parameters.Add(p => p.Houses, [house]).Add(p => p.Benches, [bench]).Add(p => p.Units, Units.Metric));

        Assert.Equal("-6 -6 1812 912", plan.Find("svg").GetAttribute("viewBox"));
        var drawn = plan.Find("g rect");
        Assert.Equal(("90", "101", "500", "165"), (drawn.GetAttribute("x"), drawn.GetAttribute("y"), drawn.GetAttribute("width"), drawn.GetAttribute("height")));
        Assert.Equal("1A · 54", plan.Find("text").TextContent);
    }

    private static SetupRow Row(string key, params (string Name, string Value)[] fields) =>
        new(Guid.NewGuid(), key, 1, fields.ToDictionary(field => field.Name, field => field.Value), null);
}
