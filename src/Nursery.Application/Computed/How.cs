using System.Globalization;

namespace Nursery.Application.Computed;

/// <summary>How a computed number came to be: stands beside it on screen ('how?') and as <c>how</c> in the API.</summary>
/// <param name="What">The number in words: "chance that the order is met".</param>
/// <param name="Formula">As it is written on its page of docs/agronomy.</param>
/// <param name="Inputs">What went in, in the order of the formula.</param>
/// <param name="Source">Published source, "common practice, no source" or "from memory".</param>
/// <param name="Page">Its page: docs/agronomy/….md.</param>
public sealed record How(string What, string Formula, IReadOnlyList<HowInput> Inputs, string Source, string Page);

/// <summary>One input of a computed number.</summary>
/// <param name="Name">Of the quantity.</param>
/// <param name="Value">As people read it.</param>
/// <param name="Unit">Empty for counts and shares without a unit.</param>
/// <param name="From">Where it comes from: "label of lot …", "counted on …", "from memory".</param>
public sealed record HowInput(string Name, string Value, string Unit, string From)
{
    /// <summary>A measured or computed input.</summary>
    /// <param name="name">Of the quantity.</param>
    /// <param name="value">In the unit.</param>
    /// <param name="format">Of the value, invariant culture: as many digits as are known.</param>
    /// <param name="unit">Of the value.</param>
    /// <param name="from">Where it comes from.</param>
    public static HowInput Of(string name, double value, string format, string unit, string from) =>
        new(name, value.ToString(format, CultureInfo.InvariantCulture), unit, from);
}
