using Microsoft.AspNetCore.HttpOverrides;
using MudBlazor.Services;
using Nursery.Application.Setup;
using Nursery.Web.Access;
using Nursery.Web.Api;
using Nursery.Web.Components;
using Nursery.Web.Look;

namespace Nursery.Web.Hosting;

/// <summary>Puts the web application together; serve and the tests use the same.</summary>
public static class NurseryHost
{
    /// <summary>Long enough for a request to end; open circuits do not hold the process back.</summary>
    private static readonly TimeSpan ShutdownTimeout = TimeSpan.FromSeconds(3);

    public static WebApplication Build(
        string[] args, NurseryDatabase database, Action<WebApplicationBuilder>? configure = null)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = args,
            ApplicationName = typeof(NurseryHost).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.Logging.AddFilter("Microsoft", LogLevel.Warning);
        builder.Logging.AddFilter("Hangfire", LogLevel.Warning);
        builder.Services.AddNursery(database);
        builder.Services.AddNurseryAccess();
        builder.Services.AddNurseryApi();
        builder.Services.AddNurseryJobs(database);
        builder.Services.AddMudServices();
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.Configure<HostOptions>(options => options.ShutdownTimeout = ShutdownTimeout);
        builder.Services.Configure<ForwardedHeadersOptions>(options =>
            builder.Configuration.GetSection("ForwardedHeaders").Bind(options));
        configure?.Invoke(builder);
        var app = builder.Build();
        app.UseNursery();
        return app;
    }

    private static void UseNursery(this WebApplication app)
    {
        app.UseForwardedHeaders();
        app.UseMiddleware<SecurityHeaders>();
        app.UseApiErrors();
        app.UseWhen(
            context => !context.IsApi(),
            pages =>
            {
                if (!app.Environment.IsDevelopment())
                {
                    pages.UseExceptionHandler("/error", createScopeForErrors: true);
                }

                // Only what is looked at is shown again as a page; a refused form post keeps its own answer.
                pages.UseWhen(
                    context => HttpMethods.IsGet(context.Request.Method),
                    gets => gets.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true));
            });
        app.UseRouting();
        app.UseAuthentication();
        app.UseRateLimiter();
        app.UseAuthorization();
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapGet("/tokens.css", () => Results.Text(Tokens.AsCss(), "text/css")).AllowAnonymous();
        app.MapHealth();
        app.MapTagLinks();
        app.MapSignOut();
        app.MapNurseryApi();
        app.MapJobs();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
    }
}
