using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Nursery.Application.Access;
using Nursery.Domain.People;

namespace Nursery.Web.Access;

/// <summary>The actor behind a request or a circuit, with the rights they have now (not those of the day they signed in).</summary>
public sealed class CurrentActor(FindActor findActor, AuthenticationStateProvider authentication)
{
    /// <summary>What the ledger keeps of a device's name.</summary>
    private const int MaxDeviceLength = 100;

    private static readonly object Key = new();

    /// <summary>For pages.</summary>
    /// <exception cref="InvalidOperationException">Nobody is signed in; pages that need someone are behind a policy.</exception>
    public async Task<Actor> GetAsync()
    {
        var state = await authentication.GetAuthenticationStateAsync();
        return await findActor.ByPersonAsync(IdOf(state.User))
            ?? throw new InvalidOperationException("The signed-in person has no role on any site");
    }

    /// <summary>For endpoints: by API key or by cookie; null when neither may act.</summary>
    public static async Task<Actor?> OfAsync(HttpContext context)
    {
        if (context.Items[Key] is Actor known)
        {
            return known;
        }

        if (context.User.Identity?.IsAuthenticated != true)
        {
            return null;
        }

        var find = context.RequestServices.GetRequiredService<FindActor>();
        var device = context.Request.Headers["Nursery-Device"].FirstOrDefault();
        var actor = await find.ByPersonAsync(IdOf(context.User), device is { Length: > MaxDeviceLength } ? device[..MaxDeviceLength] : device);
        if (actor is not null)
        {
            Remember(context, actor);
        }

        return actor;
    }

    internal static void Remember(HttpContext context, Actor actor) => context.Items[Key] = actor;

    private static Guid IdOf(ClaimsPrincipal user) =>
        Guid.TryParse(user.FindFirstValue(ClaimTypes.NameIdentifier), out var id)
            ? id
            : throw new InvalidOperationException("Nobody is signed in");
}
