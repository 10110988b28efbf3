namespace Nursery.Web.Hosting;

/// <summary>Headers of every answer. Style stays 'unsafe-inline' where MudBlazor runs (it writes style attributes); field pages
/// and sign-in carry none of it and are strict.</summary>
internal sealed class SecurityHeaders(RequestDelegate next)
{
    private const string Shared =
        "default-src 'self'; base-uri 'self'; object-src 'none'; frame-ancestors 'none'; form-action 'self'; " +
        "img-src 'self' data:; font-src 'self'; script-src 'self'; worker-src 'self'; manifest-src 'self'; ";

    private static readonly string[] StrictPages = ["/rounds", "/sign-in", "/password"];

    public Task InvokeAsync(HttpContext context)
    {
        var strict = StrictPages.Any(page => context.Request.Path.StartsWithSegments(page, StringComparison.OrdinalIgnoreCase));
        var style = strict ? "style-src 'self'; " : "style-src 'self' 'unsafe-inline'; ";
        var socket = $"connect-src 'self' {(context.Request.IsHttps ? "wss" : "ws")}://{context.Request.Host}";
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = Shared + style + socket;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(self), geolocation=(), microphone=()";
            return Task.CompletedTask;
        });
        return next(context);
    }
}
