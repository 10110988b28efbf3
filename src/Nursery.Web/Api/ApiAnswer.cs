using System.Net.Mime;
using System.Text.Json;

namespace Nursery.Web.Api;

/// <summary>A JSON answer that is known before it is sent, so that it can be remembered and given again.</summary>
internal sealed class ApiAnswer(int status, string body) : IResult
{
    private const string Json = "application/json; charset=utf-8";

    public int Status => status;

    public string Body => body;

    public static ApiAnswer Ok<T>(T value) => Of(StatusCodes.Status200OK, value);

    public static ApiAnswer Created<T>(T value) => Of(StatusCodes.Status201Created, value);

    /// <summary>Begun, and not ready yet.</summary>
    public static ApiAnswer Accepted<T>(T value) => Of(StatusCodes.Status202Accepted, value);

    /// <summary>A file for a spreadsheet.</summary>
    public static IResult Csv(byte[] csv, string name) =>
        Results.File(csv, $"{MediaTypeNames.Text.Csv}; charset=utf-8", $"{name}.csv");

    /// <summary>The same, written while it is read.</summary>
    public static IResult CsvStream(Func<Stream, Task> write, string name) =>
        Results.Stream(write, $"{MediaTypeNames.Text.Csv}; charset=utf-8", $"{name}.csv");

    public Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.StatusCode = status;
        response.ContentType = Json;
        if (status is StatusCodes.Status201Created or StatusCodes.Status202Accepted
            && httpContext.GetEndpoint()?.Metadata.GetMetadata<CreatedUnder>() is { } created)
        {
            using var document = JsonDocument.Parse(body);
            response.Headers.Location = $"{httpContext.Request.PathBase}{created.Path}/{document.RootElement.GetProperty("id").GetString()}";
        }

        return response.WriteAsync(body, httpContext.RequestAborted);
    }

    private static ApiAnswer Of<T>(int status, T value) => new(status, JsonSerializer.Serialize(value, ApiJson.Options));
}
