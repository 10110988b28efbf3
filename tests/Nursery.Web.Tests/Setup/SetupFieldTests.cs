using Bunit;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Setup;
using Xunit;

namespace Nursery.Web.Tests.Setup;

/// <summary>Forms speak the site's units; lists hold SI units. 1 in = 2.54 cm and °F = °C × 9/5 + 32 exactly (NIST SP 811, B.8).</summary>
public sealed class SetupFieldTests : BunitContext
{
    private static readonly SetupColumn Length = new("length_cm", "Length", ColumnKind.Centimeters);
    private static readonly SetupColumn Setpoint = new("setpoint_c", "Setpoint", ColumnKind.Celsius);

    [Theory]
    [InlineData(Units.UsCustomary, "Length, in", "196.9")]
    [InlineData(Units.Metric, "Length, cm", "500")]
    public void Render_Length_IsInTheSitesUnit(Units units, string label, string shown)
    {
        var field = Render<SetupField>(parameters => parameters.Add(p => p.Column, Length).Add(p => p.Value, "500").Add(p => p.Units, units));

        Assert.Equal(label, field.Find("label").TextContent);
        Assert.Equal(shown, field.Find("input").GetAttribute("value"));
        Assert.Equal(field.Find("input").Id, field.Find("label").GetAttribute("for"));
    }

    [Theory]
    [InlineData("80", "26.67")]
    [InlineData("32", "0.00")]
    [InlineData("warm", "warm")]
    public void Change_Fahrenheit_IsStoredInCelsius(string typed, string stored)
    {
        var changed = "";
        var field = Render<SetupField>(parameters => parameters.Add(p => p.Column, Setpoint).Add(p => p.Value, "21.11")
            .Add(p => p.Units, Units.UsCustomary).Add(p => p.ValueChanged, value => changed = value));

        field.Find("input").Change(typed);

        Assert.Equal(stored, changed);
        Assert.Equal(typed, field.Find("input").GetAttribute("value"));
    }

    [Fact]
    public void Render_Error_StandsBesideTheFieldAndIsAnnounced()
    {
        var field = Render<SetupField>(parameters => parameters.Add(p => p.Column, Length).Add(p => p.Value, "0").Add(p => p.Error, "1–100000"));

        Assert.Equal("true", field.Find("input").GetAttribute("aria-invalid"));
        Assert.Equal("1–100000", field.Find("#" + field.Find("input").GetAttribute("aria-describedby")).TextContent.Trim());
    }

    /// <summary>Every whole °F between freezing and 140 °F comes back as it was typed.</summary>
    [Fact]
    public void SiteUnits_WholeFahrenheit_ComesBack()
    {
        for (var degrees = 32; degrees <= 140; degrees++)
        {
            var typed = degrees.ToString(System.Globalization.CultureInfo.InvariantCulture);
            Assert.Equal(typed, SiteUnits.Shown(ColumnKind.Celsius, SiteUnits.Read(ColumnKind.Celsius, typed, Units.UsCustomary), Units.UsCustomary));
        }
    }
}
