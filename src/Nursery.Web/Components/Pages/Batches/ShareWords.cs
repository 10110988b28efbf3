using System.Globalization;
using Nursery.Application;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Batches;

/// <summary>A span of temperatures in the site's unit: '65 to 95 °F'.</summary>
internal static class ShareWords
{
    public static string Band(decimal minC, decimal maxC, Units units) => string.Create(
        CultureInfo.InvariantCulture, $"{Degrees.Of(minC, units)} to {Degrees.Of(maxC, units)}");
}
