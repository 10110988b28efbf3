using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Rounds;

public enum EntryOutcome
{
    Applied,

    /// <summary>The same entry was stored before; nothing changed.</summary>
    Repeated,
    Refused,
}

/// <summary>What became of one entry, in the order they were sent.</summary>
public sealed record EntryResult(Guid Id, EntryOutcome Outcome, Refusal? Problem = null);

/// <summary>Stores what people report, each entry in its own transaction: one that is refused keeps none of the others back.</summary>
public sealed class RecordEntries(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>How far ahead of our clock an entry may lie, for devices with a wrong clock.</summary>
    private static readonly Duration MostAhead = Duration.FromDays(1);

    private static readonly JsonSerializerOptions Canonical = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    public async Task<IReadOnlyList<EntryResult>> HandleAsync(
        IReadOnlyList<EntryRequest> entries, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        var results = new List<EntryResult>(entries.Count);
        foreach (var entry in entries)
        {
            try
            {
                var outcome = await databases.RunAsync(
                    database => RecordAsync(database, entry, actor, cancellation), cancellation);
                results.Add(new EntryResult(entry.Id, outcome));
            }
            catch (Refusal refusal)
            {
                results.Add(new EntryResult(entry.Id, EntryOutcome.Refused, refusal));
            }
        }

        return results;
    }

    private async Task<EntryOutcome> RecordAsync(
        NurseryDbContext database, EntryRequest request, Actor actor, CancellationToken cancellation)
    {
        var sent = JsonSerializer.Serialize(
            new { happenedAt = InstantPattern.ExtendedIso.Format(request.HappenedAt.ToInstant()), content = request.Content }, Canonical);
        await EntryLocks.TakeAsync(
            database, request.Content is EntryUndone undone ? [request.Id, undone.EntryId] : [request.Id], cancellation);
        if (await IsRepeatAsync(database, request.Id, sent, actor, cancellation))
        {
            return EntryOutcome.Repeated;
        }

        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var happenedAt = request.HappenedAt.ToInstant();
        if (happenedAt > now + MostAhead)
        {
            throw new InvalidFields(
                "happenedAt", OffsetDateTimePattern.Rfc3339.Format(request.HappenedAt), "not more than a day ahead of the server's clock");
        }

        var site = await database.SiteOfAsync(actor, cancellation);
        var draft = new EntryDraft(site, actor, new Id<LedgerEntry>(request.Id), happenedAt, now, sent);
        var affected = await new EntryResolver(database, draft).ResolveAsync(request.Content, cancellation);
        await database.SaveChangesAsync(cancellation);
        await BatchRefold.RunAsync(database, affected.Batches, affected.TraySets, site.Today(time), time, cancellation);
        return EntryOutcome.Applied;
    }

    private static async Task<bool> IsRepeatAsync(
        NurseryDbContext database, Guid id, string sent, Actor actor, CancellationToken cancellation)
    {
        var entryId = new Id<LedgerEntry>(id);
        var known = await database.Ledger.AsNoTracking()
            .Where(entry => entry.Id == entryId)
            .Select(entry => new { entry.SiteId, entry.Sent })
            .SingleOrDefaultAsync(cancellation);
        if (known is null)
        {
            return false;
        }

        return known.SiteId == actor.SiteId
            && known.Sent is not null
            && JsonNode.DeepEquals(JsonNode.Parse(known.Sent), JsonNode.Parse(sent))
                ? true
                : throw new EntryDiffers(id);
    }
}
