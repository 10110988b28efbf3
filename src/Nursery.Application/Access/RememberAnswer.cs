using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Data.Web;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Access;

public sealed record RememberedAnswer(int Status, string Body);

/// <summary>Remembers for a day what a request with a key was answered, so that sending it again does nothing twice.
/// A key belongs to whoever sent it, on their site.</summary>
public sealed class RememberAnswer(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public const int LongestKey = 200;

    private static readonly Duration Kept = Duration.FromHours(24);

    /// <returns>The answer of the first request with this key; null when this is the first, which is then under way.</returns>
    /// <exception cref="IdempotencyKeyReused">The key came before with another request.</exception>
    /// <exception cref="RequestUnderWay">The first request with this key has no answer yet.</exception>
    public async Task<RememberedAnswer?> BeginAsync(
        string key, byte[] requestHash, Actor actor, CancellationToken cancellation = default)
    {
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var over = now - Kept;
        await database.IdempotentRequests
            .Where(row => row.SiteId == actor.SiteId && row.ActorId == actor.Id && row.At < over)
            .ExecuteDeleteAsync(cancellation);
        var inserted = await database.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO idempotent_requests (site_id, actor_id, key, request_hash, at)
            VALUES ({actor.SiteId.Value}, {actor.Id}, {key}, {requestHash}, {now})
            ON CONFLICT DO NOTHING
            """,
            cancellation);
        if (inserted == 1)
        {
            return null;
        }

        var known = await Row(database, key, actor).AsNoTracking().SingleOrDefaultAsync(cancellation);
        return known switch
        {
            null => throw new RequestUnderWay(key),
            _ when !known.RequestHash.AsSpan().SequenceEqual(requestHash) => throw new IdempotencyKeyReused(key),
            { Status: { } status, Body: { } body } => new RememberedAnswer(status, body),
            _ => throw new RequestUnderWay(key),
        };
    }

    public async Task KeepAsync(string key, RememberedAnswer answer, Actor actor, CancellationToken cancellation = default)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await Row(database, key, actor).ExecuteUpdateAsync(
            row => row.SetProperty(x => x.Status, answer.Status).SetProperty(x => x.Body, answer.Body), cancellation);
    }

    /// <summary>For a request that was refused: nothing was done, so the key is as good as new.</summary>
    public async Task ForgetAsync(string key, Actor actor, CancellationToken cancellation = default)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await Row(database, key, actor).ExecuteDeleteAsync(cancellation);
    }

    private static IQueryable<IdempotentRequest> Row(NurseryDbContext database, string key, Actor actor) =>
        database.IdempotentRequests
            .Where(row => row.SiteId == actor.SiteId && row.ActorId == actor.Id && row.Key == key);
}
