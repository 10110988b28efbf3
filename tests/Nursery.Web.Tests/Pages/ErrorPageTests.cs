using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class ErrorPageTests
{
    [Theory]
    [InlineData("/batches", "?unplaced=true", "/batches?unplaced=true")]
    [InlineData(null, "", "/")]
    public async Task Page_TryAgain_LeadsBackToWhatFailed(string? path, string query, string address)
    {
        await using var context = new BunitContext();
        var http = new DefaultHttpContext();
        http.Request.QueryString = new QueryString(query);
        if (path is not null)
        {
            http.Features.Set<IExceptionHandlerPathFeature>(new ExceptionHandlerFeature { Path = path, Error = new InvalidOperationException() });
        }

        var page = context.Render<CascadingValue<HttpContext>>(given => given
            .Add(value => value.Value, http).AddChildContent<Components.Pages.Error>());

        Assert.Equal(address, page.FindAll("a").Single(link => link.TextContent == "Try again").GetAttribute("href"));
    }
}
