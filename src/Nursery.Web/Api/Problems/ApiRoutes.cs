using Microsoft.AspNetCore.Routing.Template;

namespace Nursery.Web.Api.Problems;

/// <summary>Which methods an address of the API answers. Routing alone does not tell: it also counts the addresses of files,
/// which lie under every path.</summary>
internal static class ApiRoutes
{
    public static IReadOnlyList<string> MethodsAt(HttpContext context) =>
    [
        .. context.RequestServices.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(endpoint => endpoint.RoutePattern.RawText is { } pattern
                && (pattern.StartsWith("/api/", StringComparison.Ordinal) || pattern.StartsWith("/openapi/", StringComparison.Ordinal))
                && new TemplateMatcher(TemplateParser.Parse(pattern), []).TryMatch(context.Request.Path, []))
            .SelectMany(endpoint => endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? [])
            .Distinct().Order(StringComparer.Ordinal),
    ];
}
