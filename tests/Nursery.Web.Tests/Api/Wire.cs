using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Requests as another system would write them, and what their answers must look like.</summary>
internal static class Wire
{
    private static readonly TimeSpan LongestRun = TimeSpan.FromMinutes(3);

    public static StringContent Json(string body) => new(body, Encoding.UTF8, "application/json");

    public static ByteArrayContent Csv(string body) => Csv(Encoding.UTF8.GetBytes(body));

    public static ByteArrayContent Csv(byte[] body, string contentType = "text/csv")
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = MediaTypeHeaderValue.Parse(contentType);
        return content;
    }

    public static Task<HttpResponseMessage> PostJsonAsync(this HttpClient client, string path, object body) =>
        client.PostAsync(path, Json(JsonSerializer.Serialize(body, JsonSerializerOptions.Web)));

    public static async Task<JsonElement> GetJsonAsync(this HttpClient client, string path)
    {
        using var response = await client.GetAsync(path);
        return await response.JsonAsync(HttpStatusCode.OK);
    }

    /// <summary>Asks after a run until it is over.</summary>
    public static async Task<JsonElement> EndedAsync(this HttpClient client, Uri run)
    {
        var watch = System.Diagnostics.Stopwatch.StartNew();
        while (true)
        {
            var answer = await client.GetJsonAsync(run.ToString());
            if (!answer.GetProperty("isLive").GetBoolean())
            {
                return answer;
            }

            Assert.True(watch.Elapsed < LongestRun, $"Not over after {LongestRun}: {answer}");
            await Task.Delay(200);
        }
    }

    public static async Task<JsonElement> JsonAsync(this HttpResponseMessage response, HttpStatusCode status)
    {
        var body = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == status, $"{(int)response.StatusCode} instead of {(int)status}: {body}");
        return JsonDocument.Parse(body).RootElement;
    }

    /// <summary>Checks problem details (RFC 9457) and our members: code, errors with field, value and allowed, traceId.</summary>
    public static async Task<JsonElement> ProblemAsync(this HttpResponseMessage response, int status, string? code = null)
    {
        var body = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == status, $"{(int)response.StatusCode} instead of {status}: {body}");
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = JsonDocument.Parse(body).RootElement;
        CheckProblem(problem, status, code);
        Assert.NotEmpty(problem.GetProperty("traceId").GetString()!);
        return problem;
    }

    public static void CheckProblem(JsonElement problem, int status, string? code)
    {
        Assert.Equal(status, problem.GetProperty("status").GetInt32());
        var given = problem.GetProperty("code").GetString()!;
        Assert.True(code is null || code == given, $"code {given} instead of {code}: {problem}");
        Assert.Equal("urn:nursery:" + JsonNamingPolicy.KebabCaseLower.ConvertName(given), problem.GetProperty("type").GetString());
        Assert.NotEmpty(problem.GetProperty("title").GetString()!);
        Assert.NotEmpty(problem.GetProperty("detail").GetString()!);
        foreach (var error in problem.GetProperty("errors").EnumerateArray())
        {
            Assert.NotEmpty(error.GetProperty("field").GetString()!);
            Assert.True(error.TryGetProperty("value", out _), "an error without the value it is about");
            Assert.NotEmpty(error.GetProperty("allowed").GetString()!);
        }
    }

    public static JsonElement Error(this JsonElement problem, string field)
    {
        var found = problem.GetProperty("errors").EnumerateArray()
            .FirstOrDefault(error => error.GetProperty("field").GetString() == field);
        Assert.True(found.ValueKind == JsonValueKind.Object, $"no error names the field {field}: {problem}");
        return found;
    }

    public static string Text(this JsonElement element, string name) => element.GetProperty(name).ValueKind == JsonValueKind.String
        ? element.GetProperty(name).GetString()!
        : element.GetProperty(name).ToString();

    public static int Whole(this JsonElement element, string name) => element.GetProperty(name).GetInt32();

    public static List<JsonElement> Items(this JsonElement page) => [.. page.GetProperty("items").EnumerateArray()];

    public static string Iso(NodaTime.LocalDate day) => day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}
