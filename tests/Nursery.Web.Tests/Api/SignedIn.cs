using System.Net;
using System.Text.RegularExpressions;
using Nursery.Domain.People;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Forms sent as a browser would.</summary>
internal static class SignedIn
{
    /// <summary>A client with the cookies of someone of the demo who has that role.</summary>
    public static async Task<HttpClient> SignedInAsync(this ApiServer server, Role role)
    {
        var person = server.Demo.SignIns.Single(signIn => signIn.Role == role);
        var client = server.Anonymous();
        using var signedIn = await client.PostFormAsync("/sign-in", "sign-in", new() { ["User"] = person.User, ["Password"] = person.Password });
        Assert.True(signedIn.StatusCode == HttpStatusCode.Redirect, $"sign-in answered {(int)signedIn.StatusCode}");
        client.DefaultRequestHeaders.Add("Cookie", CookiesOf(signedIn));
        return client;
    }

    /// <summary>Fetches a page and posts the form on it, with the page's cookies and token.</summary>
    public static async Task<HttpResponseMessage> PostFormAsync(
        this HttpClient client, string page, string handler, Dictionary<string, string> input)
    {
        using var form = await client.GetAsync(page);
        var html = await form.Content.ReadAsStringAsync();
        var token = Regex.Match(html, "name=\"__RequestVerificationToken\" value=\"([^\"]+)\"").Groups[1].Value;
        using var post = new HttpRequestMessage(HttpMethod.Post, page);
        var own = client.DefaultRequestHeaders.TryGetValues("Cookie", out var cookies) ? cookies : [];
        post.Headers.Add("Cookie", string.Join("; ", own.Append(CookiesOf(form)).Where(text => text.Length > 0)));
        post.Content = new FormUrlEncodedContent(input.Select(field => KeyValuePair.Create("Input." + field.Key, field.Value)).Concat(
        [
            KeyValuePair.Create("_handler", handler), KeyValuePair.Create("__RequestVerificationToken", token),
        ]));
        return await client.SendAsync(post);
    }

    private static string CookiesOf(HttpResponseMessage response) => string.Join(
        "; ",
        (response.Headers.TryGetValues("Set-Cookie", out var set) ? set : [])
            .Select(cookie => cookie.Split(';')[0]).Where(cookie => !cookie.EndsWith('=')));
}
