using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>What entries speak of, found and locked for all of them at once: a handful of queries instead of a handful an entry.</summary>
internal sealed class EntryGround
{
    private readonly Dictionary<Guid, RoundTask> _tasks;
    private readonly Dictionary<Id<Batch>, Batch> _batches;
    private readonly Dictionary<Id<Batch>, TraySet> _firstSets;
    private readonly Dictionary<string, TraySet> _sets;
    private readonly ILookup<Id<TraySet>, Id<Batch>> _batchesIn;
    private readonly ILookup<Id<Batch>, Id<TraySet>> _setsOf;
    private readonly Dictionary<string, Bench> _benches;

    private EntryGround(
        IEnumerable<RoundTask> tasks,
        IEnumerable<Batch> batches,
        IReadOnlyCollection<TraySet> sets,
        IReadOnlyCollection<TrayShare> shares,
        IEnumerable<Bench> benches)
    {
        _tasks = tasks.ToDictionary(task => task.Id.Value);
        _batches = batches.ToDictionary(batch => batch.Id);
        _sets = sets.ToDictionary(set => set.Code);
        _batchesIn = shares.ToLookup(share => share.TraySetId, share => share.BatchId);
        _setsOf = shares.ToLookup(share => share.BatchId, share => share.TraySetId);
        var byId = sets.ToDictionary(set => set.Id);
        _firstSets = shares.GroupBy(share => share.BatchId).ToDictionary(group => group.Key, group => byId[group.Min(share => share.TraySetId)]);
        _benches = benches.ToDictionary(bench => bench.Code);
    }

    public static async Task<EntryGround> LoadAsync(
        NurseryDbContext database, Id<Site> site, IReadOnlyCollection<EntryContent> contents, CancellationToken cancellation)
    {
        var taskIds = contents.Select(TaskIdOf).OfType<Guid>().Distinct().Select(id => new Id<RoundTask>(id)).ToList();
        var tasks = taskIds.Count == 0 ? [] : await database.Tasks.AsNoTracking()
            .Where(task => taskIds.Contains(task.Id) && task.SiteId == site).ToListAsync(cancellation);
        var benchCodes = contents.Select(BenchCodeOf).OfType<string>().Distinct().ToList();
        var benches = benchCodes.Count == 0 ? [] : await database.Benches.AsNoTracking()
            .Where(bench => benchCodes.Contains(bench.Code) && bench.SiteId == site && bench.RetiredOn == null).ToListAsync(cancellation);
        var named = tasks.Select(task => task.BatchId).OfType<Id<Batch>>()
            .Concat(contents.Select(BatchIdOf).OfType<Guid>().Select(id => new Id<Batch>(id)))
            .Concat(await UndoneBatchesAsync(database, site, contents, cancellation)).Distinct().ToList();
        var setCodes = contents.OfType<TraysMoved>().Select(moved => moved.TraySetCode).Distinct().ToList();
        var shares = named.Count + setCodes.Count == 0 ? [] : await database.TrayShares.AsNoTracking()
            .Where(share => database.TrayShares.Any(other => other.TraySetId == share.TraySetId && named.Contains(other.BatchId))
                || database.TraySets.Any(set => set.Id == share.TraySetId && set.SiteId == site && setCodes.Contains(set.Code)))
            .ToListAsync(cancellation);
        var setIds = shares.Select(share => share.TraySetId).Distinct().ToList();
        var sets = setIds.Count == 0 ? [] : await database.TraySets.AsNoTracking().Where(set => setIds.Contains(set.Id)).ToListAsync(cancellation);
        var batches = shares.Count == 0 ? [] : await database.LockBatchesAsync(shares.Select(share => share.BatchId).Concat(named), cancellation);
        return new EntryGround(tasks, batches.Where(batch => batch.SiteId == site), sets, shares, benches);
    }

    public RoundTask? TaskOf(Guid id) => _tasks.GetValueOrDefault(id);

    /// <summary>A batch, locked, with its first tray set and all batches that share its trays.</summary>
    public (Batch Batch, TraySet TraySet, IReadOnlyCollection<Batch> All)? BatchOf(Guid id) =>
        _batches.TryGetValue(new Id<Batch>(id), out var batch)
            ? (batch, _firstSets[batch.Id], [.. SharingWith(batch.Id).Select(other => _batches[other])])
            : null;

    public TraySet? TraySetOf(string code) => _sets.GetValueOrDefault(code);

    public Bench? BenchOf(string code) => _benches.GetValueOrDefault(code);

    /// <summary>What must be folded before an entry can be checked: the batches, and the lot of a sowing; null means all there is.</summary>
    public IReadOnlyCollection<Guid>? TouchedBy(EntryContent content) => content switch
    {
        SurfaceSeen => [],
        PlantsCounted or PlantsLost or WorkDone { BatchId: not null } => SharingWith(BatchIdOf(content)!.Value),
        TaskDone or TaskNotYet => TaskOf(TaskIdOf(content)!.Value) is { BatchId: { } batch } task
            ? task.Kind == TaskKind.Sow && BatchOf(batch.Value) is { Batch.LotId: { } lot }
                ? [.. SharingWith(batch.Value), lot.Value]
                : SharingWith(batch.Value)
            : [],
        TraysMoved moved => TraySetOf(moved.TraySetCode) is { } set ? [.. _batchesIn[set.Id].Select(batch => batch.Value)] : [],
        _ => null,
    };

    /// <summary>Whether later entries about the same things are checked against what this one changes.</summary>
    public bool ChangesTheGround(EntryContent content) => content switch
    {
        SurfaceSeen or PlantsCounted or PlantsLost or TaskNotYet or WorkDone { BatchId: not null } => false,
        TaskDone done => TaskOf(done.TaskId)?.Kind is TaskKind.Sow or TaskKind.MoveOffHeat or TaskKind.HardenOff,
        _ => true,
    };

    private List<Guid> SharingWith(Guid batch) => [.. SharingWith(new Id<Batch>(batch)).Select(other => other.Value)];

    private IEnumerable<Id<Batch>> SharingWith(Id<Batch> batch) =>
        _setsOf[batch].SelectMany(set => _batchesIn[set]).Append(batch).Distinct().Where(_batches.ContainsKey).Order();

    private static async Task<List<Id<Batch>>> UndoneBatchesAsync(
        NurseryDbContext database, Id<Site> site, IEnumerable<EntryContent> contents, CancellationToken cancellation)
    {
        var undone = contents.OfType<EntryUndone>().Select(undo => new Id<LedgerEntry>(undo.EntryId)).ToList();
        return undone.Count == 0 ? [] : await database.Ledger
            .Where(entry => undone.Contains(entry.Id) && entry.SiteId == site && entry.BatchId != null)
            .Select(entry => entry.BatchId!.Value).ToListAsync(cancellation);
    }

    private static Guid? TaskIdOf(EntryContent content) => content switch
    {
        TaskDone done => done.TaskId,
        TaskNotYet notYet => notYet.TaskId,
        _ => null,
    };

    private static Guid? BatchIdOf(EntryContent content) => content switch
    {
        PlantsCounted counted => counted.BatchId,
        PlantsLost lost => lost.BatchId,
        WorkDone work => work.BatchId,
        _ => null,
    };

    private static string? BenchCodeOf(EntryContent content) => content switch
    {
        SurfaceSeen surface => surface.BenchCode,
        TraysMoved moved => moved.BenchCode,
        WorkDone work => work.BenchCode,
        _ => null,
    };
}
