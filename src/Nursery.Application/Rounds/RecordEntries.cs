using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
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

/// <summary>Stores what people report, as if each entry came by itself: one that is refused keeps none of the others back. Many that
/// are all right are stored together.</summary>
public sealed class RecordEntries(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>Entries of one transaction: enough to share its queries, few enough that nobody waits long for its locks.</summary>
    private const int Together = 100;

    public async Task<IReadOnlyList<EntryResult>> HandleAsync(
        IReadOnlyList<EntryRequest> entries, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        var results = new List<EntryResult>(entries.Count);
        foreach (var some in entries.Chunk(Together))
        {
            results.AddRange(await TogetherAsync(some, actor, cancellation) ?? await OneByOneAsync(some, actor, cancellation));
        }

        return results;
    }

    /// <summary>Null when one of them is refused, or comes twice: then nothing is stored.</summary>
    private async Task<IEnumerable<EntryResult>?> TogetherAsync(EntryRequest[] entries, Actor actor, CancellationToken cancellation)
    {
        if (entries.Length == 1 || entries.DistinctBy(entry => entry.Id).Count() < entries.Length)
        {
            return null;
        }

        try
        {
            var outcomes = await databases.RunAsync(
                database => new EntryWriting(database, actor, time).WriteAsync(entries, cancellation), cancellation);
            return entries.Zip(outcomes, (entry, outcome) => new EntryResult(entry.Id, outcome));
        }
        catch (Refusal)
        {
            // Which one, and what then becomes of the others, is found out one by one.
            return null;
        }
    }

    private async Task<List<EntryResult>> OneByOneAsync(EntryRequest[] entries, Actor actor, CancellationToken cancellation)
    {
        var results = new List<EntryResult>(entries.Length);
        foreach (var entry in entries)
        {
            try
            {
                var outcomes = await databases.RunAsync(
                    database => new EntryWriting(database, actor, time).WriteAsync([entry], cancellation), cancellation);
                results.Add(new EntryResult(entry.Id, outcomes[0]));
            }
            catch (Refusal refusal)
            {
                results.Add(new EntryResult(entry.Id, EntryOutcome.Refused, refusal));
            }
        }

        return results;
    }
}
