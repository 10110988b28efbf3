using CsCheck;
using Nursery.Domain;
using Xunit;

namespace Nursery.Domain.Tests;

public sealed class HumanCodeTests
{
    private const string Alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

    private static readonly Gen<string> Payload = Gen.String[Gen.Char[Alphabet], 1, 20];

    /// <summary>A Global Release Identifier ends in an ISO 7064 MOD 37,36 check sign; the standard's own example is
    /// A1-2425G-ABC1234002-M (GRid Standard, IFPI; the example is quoted from memory).</summary>
    [Fact]
    public void CheckSign_PublishedExample_IsM()
    {
        Assert.Equal('M', HumanCode.CheckSign("A12425GABC1234002"));
        Assert.True(HumanCode.IsValid("A1-2425G-ABC1234002-M"));
    }

    [Fact]
    public void IsValid_OneSignReplaced_IsAlwaysFound() => Payload.Sample(payload =>
    {
        var code = payload + HumanCode.CheckSign(payload);
        for (var place = 0; place < code.Length; place++)
        {
            foreach (var other in Alphabet.Where(sign => sign != code[place]))
            {
                Assert.False(HumanCode.IsValid(code[..place] + other + code[(place + 1)..]));
            }
        }
    }, iter: 200);

    [Fact]
    public void IsValid_OwnCheckSign_IsAccepted() =>
        Payload.Sample(payload => Assert.True(HumanCode.IsValid(payload + HumanCode.CheckSign(payload))));

    [Fact]
    public void ForBatch_NumberAndCrop_CanBeTypedInAnyCase()
    {
        var code = HumanCode.ForBatch("EG", 31);

        Assert.Matches("^EG-031-[0-9A-Z]$", code);
        Assert.True(HumanCode.IsValid(code));
        Assert.True(HumanCode.IsValid(code.ToLowerInvariant().Replace("-", "", StringComparison.Ordinal)));
        Assert.Equal(code + "-2", HumanCode.ForTraySet(code, 2));
        Assert.Matches("^EG-12345-[0-9A-Z]$", HumanCode.ForBatch("EG", 12345));
    }

    [Theory]
    [InlineData("")]
    [InlineData("A")]
    [InlineData("EG-031-É")]
    [InlineData("EG 031")]
    public void IsValid_NoCode_IsRefused(string code) => Assert.False(HumanCode.IsValid(code));

    [Fact]
    public void CheckSign_OtherSign_Throws() => Assert.Throws<ArgumentException>(() => HumanCode.CheckSign("EG-031"));
}
