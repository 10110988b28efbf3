using System.Net;
using Nursery.Domain.People;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>The page on which people change their own password, as a browser's forms use it.</summary>
public sealed class PasswordTests(ApiServer server) : IClassFixture<ApiServer>
{
    private const string New = "moss under the bench";

    [Fact]
    public async Task Password_ChangedThenTriedTooOften_SignsInWithTheNewOneAndIsRateLimited()
    {
        var person = server.Demo.SignIns.Single(signIn => signIn.Role == Role.Manager);
        using var client = await server.SignedInAsync(Role.Manager);
        using (var differ = await ChangeAsync(client, person.Password, New, New + "es"))
        {
            Assert.Contains("The two new passwords differ.", await differ.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        using (var wrong = await ChangeAsync(client, "a wrong old one", New, New))
        {
            Assert.Contains("The old password is not right.", await wrong.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        using (var changed = await ChangeAsync(client, person.Password, New, New))
        {
            Assert.Equal(HttpStatusCode.Redirect, changed.StatusCode);
            Assert.EndsWith("/sign-in?password-changed=true", changed.Headers.Location!.ToString(), StringComparison.Ordinal);
        }

        using var anyone = server.Anonymous();
        using (var old = await SignInAsync(anyone, person.User, person.Password))
        {
            Assert.Equal(HttpStatusCode.OK, old.StatusCode);
        }

        using (var signedIn = await SignInAsync(anyone, person.User, New))
        {
            Assert.Equal(HttpStatusCode.Redirect, signedIn.StatusCode);
        }

        // Six posts so far; thirty a minute are let in from one address, on this page as at sign-in. A minute may end meanwhile.
        using var staff = await server.SignedInAsync(Role.Staff);
        var answers = new List<HttpStatusCode>();
        for (var number = 0; number < 61; number++)
        {
            using var answer = await ChangeAsync(staff, "short", "short", "short");
            answers.Add(answer.StatusCode);
        }

        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
    }

    [Fact]
    public async Task Password_NotSignedIn_LeadsToSignIn()
    {
        using var client = server.Anonymous();
        using var answer = await client.GetAsync("/password");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Contains("/sign-in", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> ChangeAsync(HttpClient client, string old, string wanted, string again) =>
        client.PostFormAsync("/password", "password", new() { ["Old"] = old, ["New"] = wanted, ["Again"] = again });

    private static Task<HttpResponseMessage> SignInAsync(HttpClient client, string user, string password) =>
        client.PostFormAsync("/sign-in", "sign-in", new() { ["User"] = user, ["Password"] = password });
}
