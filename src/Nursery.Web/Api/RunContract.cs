using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api;

/// <summary>What endpoints of work in the background have in common.</summary>
internal static class RunContract
{
    /// <summary>Answers at once with the run and where it is found; the same key starts one only.</summary>
    public static RouteHandlerBuilder StartsRun<TRun>(this RouteHandlerBuilder endpoint, string path) => endpoint
        .Produces<TRun>(StatusCodes.Status202Accepted)
        .WithMetadata(new CreatedUnder(path))
        .OnceByKey();

    /// <summary>Answers with the run as it is afterwards, or with what was done about it.</summary>
    public static RouteHandlerBuilder ChangesRun<TRun>(this RouteHandlerBuilder endpoint) => endpoint
        .Produces<TRun>()
        .Refuses(404)
        .OnceByKey();

    /// <summary>A key that may change a run and not read still hears what became of it.</summary>
    public static Actor Hearing(this Actor actor) => actor with { Rights = new HashSet<Right>(actor.Rights) { Right.Read } };
}
