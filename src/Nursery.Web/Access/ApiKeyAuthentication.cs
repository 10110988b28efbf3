using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using Nursery.Application.Access;

namespace Nursery.Web.Access;

/// <summary>Authorization: Bearer nur_…</summary>
internal sealed class ApiKeyAuthentication(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, FindActor findActor)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string SchemeName = "ApiKey";
    private const string Bearer = "Bearer ";

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
        {
            return AuthenticateResult.NoResult();
        }

        var actor = await findActor.ByApiKeyAsync(header[Bearer.Length..].Trim(), Context.RequestAborted);
        if (actor is null)
        {
            return AuthenticateResult.Fail("The API key is unknown, revoked or over");
        }

        CurrentActor.Remember(Context, actor);
        var identity = new ClaimsIdentity(SchemeName);
        identity.AddClaim(new Claim(ClaimTypes.NameIdentifier, actor.Id.ToString()));
        identity.AddClaim(new Claim(ClaimNames.DisplayName, actor.Name));
        identity.AddClaims(actor.Rights.Select(right => new Claim(ClaimNames.Right, right.ToString())));
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), SchemeName));
    }
}
