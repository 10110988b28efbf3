using System.Net;
using Nursery.Domain.People;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class AccessMatrixTests(ApiServer server)
{
    public static TheoryData<string> Scopes => new(
        ["", "Read", "Plan", "Ledger", "Admin", "Read,Plan", "Read,Ledger", "Plan,Ledger", "Read,Plan,Ledger,Admin"]);

    [Theory]
    [MemberData(nameof(Scopes))]
    public async Task EveryEndpoint_KeyWithScopes_AnswersOnlyWithItsScope(string scopes)
    {
        var rights = scopes.Split(',', StringSplitOptions.RemoveEmptyEntries).Select(Enum.Parse<Right>).ToArray();
        using var client = await server.ClientWithAsync(rights);
        foreach (var endpoint in Endpoint.All)
        {
            using var request = endpoint.Request();
            await CheckAsync(await client.SendAsync(request), endpoint, rights.Contains(endpoint.Right), scopes);
        }
    }

    [Theory]
    [InlineData(Role.Administrator)]
    [InlineData(Role.HeadGrower)]
    [InlineData(Role.Staff)]
    [InlineData(Role.Manager)]
    public async Task EveryEndpoint_PersonSignedIn_AnswersOnlyByRole(Role role)
    {
        using var client = await server.SignedInAsync(role);
        client.DefaultRequestHeaders.Add("Nursery-Client", "test");
        foreach (var endpoint in Endpoint.All)
        {
            using var request = endpoint.Request();
            await CheckAsync(await client.SendAsync(request), endpoint, RoleRights.Of(role).Contains(endpoint.Right), role.ToString());
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("Bearer")]
    [InlineData("Bearer nur_unknown")]
    [InlineData("Basic b2RpbGU6eA==")]
    public async Task EveryEndpoint_NoKeyOrAWrongOne_Is401AndStoresNothing(string? authorization)
    {
        using var client = server.Anonymous();
        var before = await server.RowsAsync();
        foreach (var endpoint in Endpoint.All)
        {
            using var request = endpoint.Request();
            request.Headers.TryAddWithoutValidation("Authorization", authorization);
            using var response = await client.SendAsync(request);
            var problem = await response.ProblemAsync(401, "NotSignedIn");
            Assert.StartsWith("Bearer nur_", problem.Error("Authorization").Text("allowed"), StringComparison.Ordinal);
            Assert.DoesNotContain("unknown", problem.Error("Authorization").Text("value"), StringComparison.Ordinal);
            Assert.Equal("Bearer", response.Headers.WwwAuthenticate.Single().Scheme);
        }

        Assert.Equal(before, await server.RowsAsync());
    }

    [Fact]
    public async Task EveryPost_CookieWithoutOurHeaderOrFromAnotherSite_Is403()
    {
        using var client = await server.SignedInAsync(Role.Administrator);
        foreach (var endpoint in Endpoint.All.Where(endpoint => endpoint.Method == "POST"))
        {
            using var plain = endpoint.Request();
            Assert.Equal("Nursery-Client", (await (await client.SendAsync(plain)).ProblemAsync(403, "CrossSiteRequest"))
                .GetProperty("errors")[0].Text("field"));
            foreach (var site in new[] { "cross-site", "same-site" })
            {
                using var foreign = endpoint.Request();
                foreign.Headers.Add("Nursery-Client", "test");
                foreign.Headers.Add("Sec-Fetch-Site", site);
                Assert.Equal(site, (await (await client.SendAsync(foreign)).ProblemAsync(403, "CrossSiteRequest"))
                    .Error("Sec-Fetch-Site").Text("value"));
            }

            using var own = endpoint.Request();
            own.Headers.Add("Nursery-Client", "test");
            own.Headers.Add("Sec-Fetch-Site", "same-origin");
            Assert.NotEqual(HttpStatusCode.Forbidden, (await client.SendAsync(own)).StatusCode);
        }
    }

    private static async Task CheckAsync(HttpResponseMessage response, Endpoint endpoint, bool allowed, string who)
    {
        if (allowed)
        {
            Assert.True(
                response.StatusCode is not (HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden) && (int)response.StatusCode < 500,
                $"{who}: {endpoint.Method} {endpoint.Path} answered {(int)response.StatusCode}");
        }
        else
        {
            var problem = await response.ProblemAsync(403, "NotAllowed");
            Assert.Contains($"'{endpoint.Right.ToString().ToLowerInvariant()}'", problem.Error("Authorization").Text("allowed"), StringComparison.Ordinal);
        }
    }
}
