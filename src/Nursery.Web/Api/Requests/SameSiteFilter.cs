using Nursery.Domain.Refusals;
using Nursery.Web.Api.Problems;

namespace Nursery.Web.Api.Requests;

/// <summary>A cookie comes with every request a browser sends, also with one that another site's page thought up. So a request
/// that changes something by cookie must carry a header no foreign page can add, and the browser must not say it comes from
/// elsewhere. Keys are never sent by themselves, so programs need none of this.</summary>
internal sealed class SameSiteFilter : IEndpointFilter
{
    private const string Client = "Nursery-Client";
    private const string FetchSite = "Sec-Fetch-Site";

    public ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var request = context.HttpContext.Request;
        if (context.HttpContext.SentByBrowser() && !HttpMethods.IsGet(request.Method) && !HttpMethods.IsHead(request.Method))
        {
            var site = request.Headers[FetchSite].ToString();
            if (site is not ("" or "same-origin" or "none"))
            {
                throw Refused(new FieldError(FetchSite, site, "same-origin, none"));
            }

            if (string.IsNullOrEmpty(request.Headers[Client]))
            {
                throw Refused(new FieldError(Client, null, "any value: a sign that the page asking is ours"));
            }
        }

        return next(context);
    }

    private static ApiRefusal Refused(FieldError error) => new(
        StatusCodes.Status403Forbidden, "CrossSiteRequest", "A request with a cookie must come from the nursery's own pages", error);
}
