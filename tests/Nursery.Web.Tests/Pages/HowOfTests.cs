using Bunit;
using Nursery.Application.Computed;
using Nursery.Web.Components.Explained;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class HowOfTests
{
    [Fact]
    public async Task A_number_opens_to_formula_inputs_with_units_and_source()
    {
        await using var page = new BunitContext();
        var how = new How(
            "days to half", "S ÷ (T − Tb)",
            [HowInput.Of("thermal time", 90.456, "0.0", "°C·d", "published days, fitted")],
            "Harrington", "docs/agronomy/emergence.md");
        var shown = page.Render<HowOf>(parameters => parameters.Add(of => of.Of, how));
        Assert.Equal("how?", shown.Find("summary").TextContent);
        Assert.Equal("S ÷ (T − Tb)", shown.Find(".formula").TextContent);
        var input = Assert.Single(shown.FindAll("tbody tr")).TextContent;
        Assert.Contains("90.5 °C·d", input, StringComparison.Ordinal);
        Assert.Contains("fitted", input, StringComparison.Ordinal);
        Assert.Contains("Source: Harrington. More: docs/agronomy/emergence.md", shown.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_inputs_there_is_no_table()
    {
        await using var page = new BunitContext();
        var how = new How("rate", "up ÷ sown", [], "elementary", "docs/agronomy/germination.md");
        Assert.Empty(page.Render<HowOf>(parameters => parameters.Add(of => of.Of, how)).FindAll("table"));
    }
}
