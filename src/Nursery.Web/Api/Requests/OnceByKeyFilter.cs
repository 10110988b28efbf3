using System.Security.Cryptography;
using System.Text;
using Nursery.Application.Access;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Requests;

/// <summary>Carries out a request with an Idempotency-Key once and gives the remembered answer to every later one.</summary>
internal sealed class OnceByKeyFilter(RememberAnswer answers) : IEndpointFilter
{
    private const string Header = "Idempotency-Key";
    private const string Replay = "Idempotent-Replay";

    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        if (http.Request.Headers[Header] is not { Count: > 0 } values)
        {
            return await next(context);
        }

        var key = KeyOf(values.ToString());
        var actor = await http.CallerAsync();
        var hash = await HashAsync(http);

        // From here on the sender may hang up: half a request must not be left, and its answer is kept for the next try.
        http.RequestAborted = CancellationToken.None;
        if (await answers.BeginAsync(key, hash, actor) is { } known)
        {
            http.Response.Headers[Replay] = "true";
            return new ApiAnswer(known.Status, known.Body);
        }

        try
        {
            var answer = (ApiAnswer)(await next(context))!;
            await answers.KeepAsync(key, new RememberedAnswer(answer.Status, answer.Body), actor);
            return answer;
        }
        catch (Exception refused) when (refused is Refusal or Problems.ApiRefusal)
        {
            // Nothing was stored, so the key stays free for a better try.
            await answers.ForgetAsync(key, actor);
            throw;
        }
    }

    private static string KeyOf(string key) =>
        key.Length is > 0 and <= RememberAnswer.LongestKey && key.All(sign => sign is >= ' ' and <= '~')
            ? key
            : throw new Malformed(
                $"{Header} is not a key", [new FieldError(Header, key, $"1–{RememberAnswer.LongestKey} characters of ASCII")]);

    private static async Task<byte[]> HashAsync(HttpContext http)
    {
        var request = http.Request;
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes($"{request.Method} {request.Path}{request.QueryString}\n"));
        hash.AppendData((await RequestBody.ReadAsync(http)).Span);
        return hash.GetHashAndReset();
    }
}
