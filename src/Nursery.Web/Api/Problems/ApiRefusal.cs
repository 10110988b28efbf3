using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;

namespace Nursery.Web.Api.Problems;

/// <summary>A request refused by what HTTP says of it, before the nursery is asked.</summary>
internal sealed class ApiRefusal(int status, string code, string sentence, params IReadOnlyList<FieldError> errors)
    : Exception(sentence)
{
    public int Status => status;

    public string Code => code;

    public IReadOnlyList<FieldError> Errors => errors;

    /// <summary>What an answer without a body means, said in words.</summary>
    public static ApiRefusal OfStatus(HttpContext context, int status)
    {
        var request = context.Request;
        return status switch
        {
            StatusCodes.Status401Unauthorized => new(
                status, "NotSignedIn", "This needs an API key or someone who is signed in",
                new FieldError("Authorization", ShownCredentials(request), "Bearer nur_… with a key that is known and not over")),
            StatusCodes.Status403Forbidden => new(
                status, nameof(NotAllowed), "Whoever is signed in, or the key, may not do this",
                new FieldError("Authorization", ShownCredentials(request), $"a role or key with the right '{NeededRight(context)}'")),
            StatusCodes.Status404NotFound => new(
                status, nameof(NotFound), "There is nothing at this address",
                new FieldError("path", request.Path, "an address of /openapi/v1.json")),
            StatusCodes.Status405MethodNotAllowed => new(
                status, "MethodNotAllowed", $"This address does not answer {request.Method}",
                new FieldError("method", request.Method, context.Response.Headers.Allow.ToString())),
            StatusCodes.Status413PayloadTooLarge => new(
                status, nameof(TooLarge), "The request is too long",
                new FieldError("body", request.ContentLength is { } length ? $"{length} bytes" : null, "at most 16 MB")),
            StatusCodes.Status429TooManyRequests => new(status, "TooManyRequests", "Too many requests in a short time: wait a minute"),
            >= StatusCodes.Status500InternalServerError => new(
                status, "ServerFault", "Something failed on our side; the log tells more under this traceId"),
            _ => new(status, nameof(Malformed), "The request cannot be read"),
        };
    }

    /// <summary>Says what was sent without giving a secret back.</summary>
    private static string? ShownCredentials(HttpRequest request) => request.Headers.Authorization.ToString() switch
    {
        "" => null,
        var header when header.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase) => "Bearer …",
        _ => "not a Bearer key",
    };

    private static string? NeededRight(HttpContext context) =>
        context.GetEndpoint()?.Metadata.GetMetadata<NeededRight>() is { } needed ? ApiJson.Word(needed.Right) : null;
}
