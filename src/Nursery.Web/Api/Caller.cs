using Nursery.Domain.People;
using Nursery.Web.Access;
using Nursery.Web.Api.Problems;

namespace Nursery.Web.Api;

internal static class Caller
{
    /// <summary>Who calls. A person whose role was taken away after signing in still has a cookie, but may do nothing.</summary>
    public static async Task<Actor> CallerAsync(this HttpContext context) =>
        await CurrentActor.OfAsync(context) ?? throw ApiRefusal.OfStatus(context, StatusCodes.Status403Forbidden);

    /// <summary>Programs send a key; without one the browser's cookie says who calls.</summary>
    public static bool SentByBrowser(this HttpContext context) => context.Request.Headers.Authorization.Count == 0;
}
