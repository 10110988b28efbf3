using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Serialization;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Problems;

/// <summary>A refusal as other systems get it: problem details (RFC 9457) with our code, the fields at fault and facts.</summary>
internal sealed record ApiProblem(string Type, string Code, string Title, int Status, string Detail, IReadOnlyList<ApiFieldError> Errors)
{
    public const string ContentType = "application/problem+json";

    public string? TraceId { get; init; }

    /// <summary>What a program wants beside the sentence: heldBy, until, setpointC …</summary>
    [JsonExtensionData]
    public IDictionary<string, object?> Facts { get; init; } = new Dictionary<string, object?>();

    public static ApiProblem Of(Refusal refusal, HttpContext context) =>
        Of(StatusOf(refusal.Kind), refusal.Code, refusal.Message, refusal.Errors, context) with
        {
            Facts = new Dictionary<string, object?>(refusal.Facts),
        };

    public static ApiProblem Of(ApiRefusal refusal, HttpContext context) =>
        Of(refusal.Status, refusal.Code, refusal.Message, refusal.Errors, context);

    public Task WriteAsync(HttpContext context)
    {
        context.Response.StatusCode = Status;
        context.Response.ContentType = ContentType;
        if (Status == StatusCodes.Status401Unauthorized)
        {
            context.Response.Headers.WWWAuthenticate = "Bearer";
        }

        return context.Response.WriteAsync(JsonSerializer.Serialize(this, ApiJson.Options), context.RequestAborted);
    }

    private static ApiProblem Of(int status, string code, string sentence, IReadOnlyList<FieldError> errors, HttpContext context) =>
        new(
            $"urn:nursery:{JsonNamingPolicy.KebabCaseLower.ConvertName(code)}",
            code,
            TitleOf(code),
            status,
            sentence.EndsWith('.') ? sentence : sentence + ".",
            [.. errors.Select(ApiFieldError.From)])
        {
            TraceId = Activity.Current?.Id ?? context.TraceIdentifier,
        };

    private static string TitleOf(string code)
    {
        var words = JsonNamingPolicy.KebabCaseLower.ConvertName(code).Replace('-', ' ');
        return char.ToUpperInvariant(words[0]) + words[1..];
    }

    private static int StatusOf(RefusalKind kind) => kind switch
    {
        RefusalKind.Malformed => StatusCodes.Status400BadRequest,
        RefusalKind.NotAllowed => StatusCodes.Status403Forbidden,
        RefusalKind.NotFound => StatusCodes.Status404NotFound,
        RefusalKind.State => StatusCodes.Status409Conflict,
        RefusalKind.TooLarge => StatusCodes.Status413PayloadTooLarge,
        RefusalKind.Rule => StatusCodes.Status422UnprocessableEntity,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a kind of refusal without a status"),
    };
}
