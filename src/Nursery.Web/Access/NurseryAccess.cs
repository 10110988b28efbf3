using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.Identity;
using Nursery.Application.Access;
using Nursery.Domain.People;
using Nursery.Web.Api;

namespace Nursery.Web.Access;

/// <summary>Sign-in by cookie for people, by key for programs; a policy a right.</summary>
internal static class NurseryAccess
{
    public const string SignInLimit = "sign-in";

    /// <summary>Sign-in tries a minute from one address: a house full of tablets, not a guessing machine.</summary>
    private const int SignInTriesPerMinute = 30;
    private const string Chooser = "Nursery";

    public static void AddNurseryAccess(this IServiceCollection services)
    {
        services.AddAuthentication(Chooser)
            .AddPolicyScheme(Chooser, null, options => options.ForwardDefaultSelector = context =>
                context.Request.Headers.Authorization.Count > 0 ? ApiKeyAuthentication.SchemeName : IdentityConstants.ApplicationScheme)
            .AddScheme<AuthenticationSchemeOptions, ApiKeyAuthentication>(ApiKeyAuthentication.SchemeName, null)
            .AddIdentityCookies(cookies => cookies.ApplicationCookie!.Configure(options =>
            {
                options.LoginPath = "/sign-in";
                options.AccessDeniedPath = "/not-allowed";
                options.Cookie.Name = "nursery";
                options.Cookie.SameSite = SameSiteMode.Lax;
                options.ExpireTimeSpan = TimeSpan.FromHours(12);
                options.SlidingExpiration = true;

                // Programs get a 401 or 403 they understand, never a page.
                var redirectToLogin = options.Events.OnRedirectToLogin;
                options.Events.OnRedirectToLogin = context => Answer(context, StatusCodes.Status401Unauthorized, redirectToLogin);
                var redirectToDenied = options.Events.OnRedirectToAccessDenied;
                options.Events.OnRedirectToAccessDenied = context => Answer(context, StatusCodes.Status403Forbidden, redirectToDenied);
            }));
        services.Configure<SecurityStampValidatorOptions>(options => options.ValidationInterval = TimeSpan.FromMinutes(5));
        services.AddAuthorization(options =>
        {
            foreach (var right in Enum.GetNames<Right>())
            {
                options.AddPolicy(right, policy => policy.RequireClaim(ClaimNames.Right, right));
            }
        });
        services.AddCascadingAuthenticationState();
        services.AddHttpContextAccessor();
        services.AddScoped<CurrentActor>();
        services.AddRateLimiter(options =>
        {
            options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            options.AddPolicy(SignInLimit, context => HttpMethods.IsPost(context.Request.Method)
                ? RateLimitPartition.GetFixedWindowLimiter(
                    context.Connection.RemoteIpAddress?.ToString() ?? "",
                    _ => new FixedWindowRateLimiterOptions { PermitLimit = SignInTriesPerMinute, Window = TimeSpan.FromMinutes(1) })
                : RateLimitPartition.GetNoLimiter(""));
        });
    }

    public static void MapSignOut(this WebApplication app) =>
        app.MapPost("/sign-out", async (HttpContext context, IAntiforgery antiforgery, SignInPerson signIn) =>
        {
            // A handler that binds no form is not checked by the middleware.
            await antiforgery.ValidateRequestAsync(context);
            await signIn.SignOutAsync();
            return Results.LocalRedirect("~/sign-in");
        });

    private static Task Answer(
        RedirectContext<Microsoft.AspNetCore.Authentication.Cookies.CookieAuthenticationOptions> context,
        int status,
        Func<RedirectContext<Microsoft.AspNetCore.Authentication.Cookies.CookieAuthenticationOptions>, Task> otherwise)
    {
        if (!context.HttpContext.IsApi())
        {
            return otherwise(context);
        }

        context.Response.StatusCode = status;
        return Task.CompletedTask;
    }
}
