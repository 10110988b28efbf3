using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Problems;

/// <summary>Every error under /api leaves as problem details, whoever found it: a use case, a handler, routing, sign-in or the server.</summary>
internal sealed class ApiErrors(RequestDelegate next, ILogger<ApiErrors> logger)
{
    public async Task InvokeAsync(HttpContext context)
    {
        if (!context.IsApi())
        {
            await next(context);
            return;
        }

        var problem = await ProblemAsync(context);
        if (problem is not null && !context.Response.HasStarted)
        {
            await problem.WriteAsync(context);
        }
    }

    private async Task<ApiProblem?> ProblemAsync(HttpContext context)
    {
        try
        {
            await next(context);
            return context.Response is { StatusCode: >= 400, ContentType: null }
                ? OfStatus(context, context.Response.StatusCode)
                : null;
        }
        catch (Refusal refusal)
        {
            return ApiProblem.Of(refusal, context);
        }
        catch (ApiRefusal refusal)
        {
            return ApiProblem.Of(refusal, context);
        }
        catch (BadHttpRequestException failure)
        {
            return OfStatus(context, failure.StatusCode);
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            // Nobody is there to be told.
            return null;
        }
        catch (Exception failure) when (!context.Response.HasStarted)
        {
            logger.LogError(failure, "{Method} {Path} failed", context.Request.Method, context.Request.Path);
            return OfStatus(context, StatusCodes.Status500InternalServerError);
        }
    }

    private static ApiProblem OfStatus(HttpContext context, int status)
    {
        if (status is StatusCodes.Status404NotFound or StatusCodes.Status405MethodNotAllowed)
        {
            var methods = ApiRoutes.MethodsAt(context);
            status = methods.Count > 0 ? StatusCodes.Status405MethodNotAllowed : StatusCodes.Status404NotFound;
            context.Response.Headers.Allow = methods.Count > 0 ? string.Join(", ", methods) : default;
        }

        return ApiProblem.Of(ApiRefusal.OfStatus(context, status), context);
    }
}
