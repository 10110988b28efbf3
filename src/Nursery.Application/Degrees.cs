using System.Globalization;
using Nursery.Agronomy;
using Nursery.Domain.Sites;

namespace Nursery.Application;

/// <summary>Temperatures in sentences, in the unit people of the site read.</summary>
public static class Degrees
{
    public static string Of(decimal celsius, Units units) => units == Units.UsCustomary
        ? string.Create(CultureInfo.InvariantCulture, $"{new Temperature(celsius).Fahrenheit:0} °F")
        : string.Create(CultureInfo.InvariantCulture, $"{celsius:0.#} °C");
}
