using System.Globalization;
using NodaTime;
using Nursery.Domain.Sites;
using Nursery.Printing;

namespace Nursery.Application.Papers;

/// <summary>What a site's papers have in common.</summary>
internal static class PaperOfSite
{
    public static Imprint Imprint(this Site site, TimeProvider time) => new(
        site.Name,
        Instant.FromDateTimeOffset(time.GetUtcNow()).InZone(site.Zone).ToString("d MMMM uuuu, HH:mm", CultureInfo.InvariantCulture),
        site.IsDemo ? "Invented demo data" : null);

    /// <summary>Sheets never come on the label roll: whoever has one as the site's paper gets the sheets usual with the site's units.</summary>
    public static Paper Sheet(this Site site, SheetSize? asked) => asked switch
    {
        SheetSize.Letter => Paper.Letter,
        SheetSize.A4 => Paper.A4,
        null => site.Paper switch
        {
            PaperSize.Letter => Paper.Letter,
            PaperSize.A4 => Paper.A4,
            _ => site.Units == Units.UsCustomary ? Paper.Letter : Paper.A4,
        },
        _ => throw new ArgumentOutOfRangeException(nameof(asked), asked, "a sheet without a size"),
    };
}
