using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class RefusalWordsTests
{
    [Theory]
    [InlineData(Units.UsCustomary, "Too cold: zone Z4 is set to 59 °F, Pepper germinates at 65–95 °F.")]
    [InlineData(Units.Metric, "Too cold: zone Z4 is set to 15 °C, Pepper germinates at 18.3–35 °C.")]
    public void Of_TooCold_SaysBothTemperaturesInTheSitesUnit(Units units, string words) =>
        Assert.Equal(words, Words(new TooCold("Z4", 15m, "Pepper", 18.33m, 35m), units));

    [Fact]
    public void Of_TooHot_SaysBothTemperatures() => Assert.Equal(
        "Too hot: zone Z1 is set to 80 °F, Lettuce germinates at 35–75 °F.",
        Words(new TooHot("Z1", 26.67m, "Lettuce", 1.67m, 23.89m), Units.UsCustomary));

    [Fact]
    public void Of_SpaceTaken_SaysByWhomUntilWhen() => Assert.Equal(
        "Taken. Spaces 5–8 of bench 1A are held by PE-001-A-1 until 3 April 2026.",
        Words(new SpaceTaken("1A", new SpaceRun(5, 4), "PE-001-A-1", new LocalDate(2026, 4, 3)), Units.UsCustomary));

    [Fact]
    public void Of_WouldHarm_NamesFiveAndCountsTheRest() => Assert.EndsWith(
        "S5-1 Pepper needs 65–95 °F; and 2 more.",
        Words(
            new WouldHarm("Z1", 10m, [.. Enumerable.Range(1, 7).Select(number => new HarmedTrays($"S{number}-1", "Pepper", 18.33m, 35m))]),
            Units.UsCustomary),
        StringComparison.Ordinal);

    [Fact]
    public void Of_FieldAtFault_SaysItWithoutTheFieldsName() => Assert.Equal(
        "Not possible: first space 50; allowed is 1–41.",
        Words(new InvalidFields("firstSpace", "50", "1–41"), Units.UsCustomary));

    private static string Words(Refusal refusal, Units units) => RefusalWords.Of(refusal, units).Replace('\u00A0', ' ');
}
