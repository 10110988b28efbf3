using System.Security.Claims;
using Bunit;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Access;
using Nursery.Application.Benches;
using Nursery.Application.Reservations;
using Nursery.Data;
using Nursery.Web.Access;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class BenchesPageTests : BunitContext, IAsyncLifetime
{
    private readonly BrokenDatabases _databases = new();

    public BenchesPageTests()
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        AddAuthorization().SetAuthorized("imke").SetClaims(new Claim(ClaimTypes.NameIdentifier, Guid.CreateVersion7().ToString()));
        Services.AddSingleton<IDbContextFactory<NurseryDbContext>>(_databases);
        Services.AddSingleton(TimeProvider.System);
        Services.AddSingleton<ShowHouses>().AddSingleton<ShowSite>().AddSingleton<MoveTrays>().AddSingleton<UndoReplan>().AddSingleton<FindActor>().AddScoped<CurrentActor>();
    }

    public Task InitializeAsync() => Task.CompletedTask;

    async Task IAsyncLifetime.DisposeAsync() => await base.DisposeAsync();

    [Fact]
    public void Render_WhileReading_SaysSo()
    {
        _databases.Hang = true;

        Assert.Contains("Reading the benches", Render<BenchesPage>().Find("[role=status]").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Render_DatabaseAway_SaysSoAndTriesAgain()
    {
        var page = Render<BenchesPage>();
        Assert.Contains("could not be read", page.Find("[role=alert]").TextContent, StringComparison.Ordinal);
        var asked = _databases.Asked;

        page.Find("[role=alert] button").Click();

        Assert.Equal(asked + 1, _databases.Asked);
        Assert.NotEmpty(page.FindAll("[role=alert]"));
    }

    private sealed class BrokenDatabases : IDbContextFactory<NurseryDbContext>
    {
        public bool Hang { get; set; }

        public int Asked { get; private set; }

        public NurseryDbContext CreateDbContext() => throw new InvalidOperationException("The database is away");

        public Task<NurseryDbContext> CreateDbContextAsync(CancellationToken cancellationToken = default)
        {
            Asked++;
            return Hang ? new TaskCompletionSource<NurseryDbContext>().Task : Task.FromResult(CreateDbContext());
        }
    }
}
