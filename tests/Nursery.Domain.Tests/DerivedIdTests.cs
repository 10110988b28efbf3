using CsCheck;
using Nursery.Domain;
using Xunit;

namespace Nursery.Domain.Tests;

public sealed class DerivedIdTests
{
    [Fact]
    public void From_SameCause_SameIdElseAnother() => Gen.Guid.Sample(source =>
    {
        var id = DerivedId.From(source, "placed", 1);
        Assert.Equal(id, DerivedId.From(source, "placed", 1));
        Assert.NotEqual(id, DerivedId.From(source, "placed", 2));
        Assert.NotEqual(id, DerivedId.From(source, "moved", 1));
        Assert.NotEqual(id, source);
    });

    /// <summary>Version 8 and variant 10 stand where RFC 9562, section 5.8, puts them; the time prefix is the source's.</summary>
    [Fact]
    public void From_Layout_IsUuidVersion8() => Gen.Guid.Sample(source =>
    {
        var id = DerivedId.From(source, "placed");
        Assert.Equal(8, id.Version);
        Assert.InRange(id.Variant, 0x8, 0xB);
        Assert.Equal(source.ToString("N")[..12], id.ToString("N")[..12]);
    });
}
