using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Tasks;

/// <summary>What a task is about: a batch, a bench or a house; exactly one of the three.</summary>
public sealed record TaskSubject(Id<Site> Site, Id<Batch>? Batch, Id<Bench>? Bench, Id<House>? House)
{
    /// <summary>The one id of the three; with kind and occurrence it is the key of a task.</summary>
    public Guid Id => (Batch?.Value ?? Bench?.Value ?? House?.Value)!.Value;

    public static TaskSubject Of(Batch batch) => new(batch.SiteId, batch.Id, null, null);

    public static TaskSubject Of(Bench bench) => new(bench.SiteId, null, bench.Id, null);

    public static TaskSubject Of(House house) => new(house.SiteId, null, null, house.Id);
}
