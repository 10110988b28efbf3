using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Writes reported entries within one transaction, all or nothing, as if they came one after the other. Batches are folded
/// once for many entries, and before an entry that is checked against what an earlier one changed.</summary>
internal sealed class EntryWriting(NurseryDbContext database, Actor actor, TimeProvider time)
{
    /// <summary>How far ahead of our clock an entry may lie, for devices with a wrong clock.</summary>
    private static readonly Duration MostAhead = Duration.FromDays(1);

    private static readonly JsonSerializerOptions Canonical = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    private readonly Dictionary<Id<Batch>, Batch> _batches = [];
    private readonly HashSet<Id<TraySet>> _traySets = [];
    private readonly Dictionary<Id<Batch>, Batch> _tasksOnly = [];
    private readonly HashSet<TaskSubject> _places = [];
    private readonly HashSet<Guid> _changed = [];
    private bool _allChanged;

    /// <summary>The outcomes in the order of the entries; no two of them have the same id.</summary>
    /// <exception cref="Refusal">One is refused; the transaction must not be kept.</exception>
    public async Task<IReadOnlyList<EntryOutcome>> WriteAsync(IReadOnlyList<EntryRequest> entries, CancellationToken cancellation)
    {
        await EntryLocks.TakeAsync(
            database,
            entries.Select(entry => entry.Id).Concat(entries.Select(entry => entry.Content).OfType<EntryUndone>().Select(undo => undo.EntryId)),
            cancellation);
        var sent = entries.ToDictionary(entry => entry.Id, AsSent);
        var repeats = await RepeatsAsync(sent, cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var ground = await EntryGround.LoadAsync(
            database, site.Id, [.. entries.Where(entry => !repeats.Contains(entry.Id)).Select(entry => entry.Content)], cancellation);
        var outcomes = new List<EntryOutcome>(entries.Count);
        foreach (var entry in entries)
        {
            if (repeats.Contains(entry.Id))
            {
                outcomes.Add(EntryOutcome.Repeated);
                continue;
            }

            await AddAsync(entry, sent[entry.Id], site, ground, cancellation);
            outcomes.Add(EntryOutcome.Applied);
        }

        await FoldAsync(site, cancellation);
        return outcomes;
    }

    private async Task AddAsync(EntryRequest entry, string sent, Site site, EntryGround ground, CancellationToken cancellation)
    {
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var happenedAt = entry.HappenedAt.ToInstant();
        if (happenedAt > now + MostAhead)
        {
            throw new InvalidFields(
                "happenedAt", OffsetDateTimePattern.Rfc3339.Format(entry.HappenedAt), "not more than a day ahead of the server's clock");
        }

        var touched = ground.TouchedBy(entry.Content);

        // A task done keeps its due day, so what was told before of its batch must have moved that day by then.
        var moved = entry.Content is TaskDone && touched!.Any(id => _batches.ContainsKey(new Id<Batch>(id)));
        if (_allChanged || touched is null || moved || _changed.Overlaps(touched))
        {
            await FoldAsync(site, cancellation);
        }

        var draft = new EntryDraft(site, actor, new Id<LedgerEntry>(entry.Id), happenedAt, now, sent);
        var affected = await new EntryResolver(database, draft, ground).ResolveAsync(entry.Content, cancellation);
        foreach (var batch in affected.Batches)
        {
            _batches[batch.Id] = batch;
        }

        _traySets.UnionWith(affected.TraySets);
        foreach (var batch in affected.TasksOnly)
        {
            _tasksOnly[batch.Id] = batch;
        }

        if (affected.Place is { } place)
        {
            _places.Add(place);
        }

        if (ground.ChangesTheGround(entry.Content))
        {
            _changed.UnionWith(touched ?? []);
            _allChanged |= touched is null;
        }
    }

    private async Task FoldAsync(Site site, CancellationToken cancellation)
    {
        await database.SaveChangesAsync(cancellation);
        var today = site.Today(time);
        await BatchRefold.RunAsync(database, [.. _batches.Values.OrderBy(batch => batch.Id)], _traySets, today, time, cancellation);
        await TaskWriting.SyncAsync(
            database, [.. _tasksOnly.Values.ExceptBy(_batches.Keys, batch => batch.Id).OrderBy(batch => batch.Id)], today, time, cancellation);
        foreach (var place in _places.OrderBy(place => place.Id))
        {
            await PlaceRefold.RunAsync(database, place, today, time, cancellation);
        }

        foreach (var stored in database.ChangeTracker.Entries<LedgerEntry>().ToList())
        {
            stored.State = EntityState.Detached;
        }

        _batches.Clear();
        _traySets.Clear();
        _tasksOnly.Clear();
        _places.Clear();
        _changed.Clear();
        _allChanged = false;
    }

    private async Task<HashSet<Guid>> RepeatsAsync(Dictionary<Guid, string> sent, CancellationToken cancellation)
    {
        var ids = sent.Keys.Select(id => new Id<LedgerEntry>(id)).ToList();
        var known = await database.Ledger.AsNoTracking()
            .Where(entry => ids.Contains(entry.Id))
            .Select(entry => new { entry.Id, entry.SiteId, entry.Sent })
            .ToListAsync(cancellation);
        foreach (var entry in known)
        {
            if (entry.SiteId != actor.SiteId
                || entry.Sent is null
                || !JsonNode.DeepEquals(JsonNode.Parse(entry.Sent), JsonNode.Parse(sent[entry.Id.Value])))
            {
                throw new EntryDiffers(entry.Id.Value);
            }
        }

        return [.. known.Select(entry => entry.Id.Value)];
    }

    private static string AsSent(EntryRequest entry) => JsonSerializer.Serialize(
        new { happenedAt = InstantPattern.ExtendedIso.Format(entry.HappenedAt.ToInstant()), content = entry.Content }, Canonical);
}
