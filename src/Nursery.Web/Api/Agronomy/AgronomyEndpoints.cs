using Nursery.Agronomy;
using Nursery.Domain.Refusals;

namespace Nursery.Web.Api.Agronomy;

/// <summary>The computations as calls: they read numbers, store nothing and need the right to read.</summary>
internal static class AgronomyEndpoints
{
    public static void MapAgronomy(this RouteGroupBuilder api)
    {
        var agronomy = api.MapGroup("/agronomy").AddEndpointFilter(ToldByFieldAsync);
        agronomy.MapEmergence();
        agronomy.MapForecast();
        agronomy.MapSowing();
        agronomy.MapSeed();
        agronomy.MapSky();
        agronomy.MapPreparation();
        agronomy.MapStandards();
    }

    /// <summary>What a formula refuses is told as the field it came from.</summary>
    private static async ValueTask<object?> ToldByFieldAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        try
        {
            return await next(context);
        }
        catch (InputOutOfRange refused)
        {
            throw new InvalidFields(refused.Input, refused.Shown, refused.Unit.Length == 0 ? refused.Range : $"{refused.Range} {refused.Unit}");
        }
    }
}
