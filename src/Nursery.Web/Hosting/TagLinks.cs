using Nursery.Application.Access;
using Nursery.Domain.People;

namespace Nursery.Web.Hosting;

/// <summary>Where the code on a bench tag or tray tag leads: to its work on the round, or to the map for who does not work the round.
/// The path has no case, so a tag may print it in QR's compact capitals.</summary>
internal static class TagLinks
{
    public static void MapTagLinks(this WebApplication app)
    {
        foreach (var kind in new[] { "/b/{code}", "/t/{code}" })
        {
            app.MapGet(kind, (string code, HttpContext context) => Results.LocalRedirect(
                    context.User.HasClaim(ClaimNames.Right, nameof(Right.Ledger))
                        ? "~/rounds?find=" + Uri.EscapeDataString(code)
                        : "~/benches"))
                .RequireAuthorization(nameof(Right.Read));
        }
    }
}
