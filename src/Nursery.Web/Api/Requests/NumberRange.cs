using System.Globalization;

namespace Nursery.Web.Api.Requests;

/// <summary>What a number may be, with its unit: told when it is not.</summary>
internal readonly record struct NumberRange(double Low, double High, string Unit)
{
    /// <summary>The low end itself is not allowed.</summary>
    public bool AboveLow { get; init; }

    /// <summary>The high end itself is not allowed.</summary>
    public bool BelowHigh { get; init; }

    public string Allowed => string.Create(
        CultureInfo.InvariantCulture,
        $"a number {(AboveLow ? "above " : "")}{Low:0.######} {(BelowHigh ? "to below" : "to")} {High:0.######}{(Unit.Length == 0 ? "" : " ")}{Unit}");

    public bool Holds(double value) =>
        (AboveLow ? value > Low : value >= Low) && (BelowHigh ? value < High : value <= High);
}
