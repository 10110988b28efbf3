using System.Diagnostics;
using System.Security.Claims;
using AngleSharp.Dom;
using Bunit;
using Bunit.Extensions.WaitForHelpers;
using Hangfire;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Setup;
using Nursery.Data.People;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Access;

namespace Nursery.Web.Tests.Pages;

/// <summary>The pages over a test nursery's database and clock, as someone of a role sees them.</summary>
internal sealed class NurseryPages : BunitContext
{
    /// <summary>The first page of a run waits for the database's template and a cold process.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(30);

    private NurseryPages() => DefaultWaitTimeout = LongestWait;

    public static async Task<NurseryPages> OpenAsync(TestNursery nursery, TestDatabase database, Role role)
    {
        var actor = nursery.As(role);
        await using (var rows = await nursery.DatabaseAsync())
        {
            rows.Add(new Person { Id = actor.Id, UserName = actor.Name, DisplayName = actor.Name });
            rows.Add(new PersonSite { PersonId = actor.Id, SiteId = actor.SiteId, Role = role });
            await rows.SaveChangesAsync();
        }

        var pages = new NurseryPages();
        pages.JSInterop.Mode = JSRuntimeMode.Loose;
        pages.Services.AddNursery(new NurseryDatabase(database.AppConnectionString, database.OwnerConnectionString));
        pages.Services.AddSingleton<TimeProvider>(nursery.Clock);
        pages.Services.AddScoped<CurrentActor>();
        pages.Services.AddSingleton<JobsAtOnce>();
        pages.Services.AddSingleton<IBackgroundJobClient>(services => services.GetRequiredService<JobsAtOnce>());
        var signedIn = pages.AddAuthorization().SetAuthorized(actor.Name);
        signedIn.SetClaims(new Claim(ClaimTypes.NameIdentifier, actor.Id.ToString()));
        signedIn.SetPolicies([.. RoleRights.Of(role).Select(right => right.ToString())]);
        return pages;
    }

    /// <summary>The one button that says so, once it can be pressed: what was pressed before may still be on its way to the page.</summary>
    public static IElement Button<T>(IRenderedComponent<T> page, string words)
        where T : IComponent
    {
        IElement? found = null;
        page.WaitForAssertion(() => found = page.FindAll("button").Single(button => button.TextContent == words && !button.HasAttribute("disabled")));
        return found!;
    }

    /// <summary>Waits for a page that looks by the clock, which stands until it is moved.</summary>
    public static void Look<T>(IRenderedComponent<T> page, TestNursery nursery, Action assertion)
        where T : IComponent
    {
        var patience = Stopwatch.StartNew();
        while (true)
        {
            nursery.Clock.Advance(TimeSpan.FromSeconds(1));
            try
            {
                page.WaitForAssertion(assertion, TimeSpan.FromMilliseconds(300));
                return;
            }
            catch (WaitForFailedException) when (patience.Elapsed < LongestWait)
            {
                // Not seen yet.
            }
        }
    }
}
