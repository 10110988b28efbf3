using System.ComponentModel;
using System.Text.Json;
using NodaTime;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Web.Api.Rounds;

/// <summary>What POST /ledger reads, for the contract.</summary>
internal sealed record LedgerBody([property: Description("1–200 entries")] IReadOnlyList<LedgerBodyEntry> Entries);

/// <summary>One entry: id, happenedAt, kind, and the members of that kind.</summary>
internal sealed record LedgerBodyEntry(
    [property: Description("made by the sender (UUIDv7); sent twice, it is stored once")] Guid Id,
    [property: Description("when, with the offset of the device")] OffsetDateTime HappenedAt,
    [property: Description("done, undo, notYet, count, surface, loss, moved or worked")] string Kind,
    [property: Description("done, notYet")] Guid? TaskId = null,
    [property: Description("undo: the entry taken back")] Guid? EntryId = null,
    [property: Description("notYet: why")] string? Reason = null,
    [property: Description("count, loss, worked")] Guid? BatchId = null,
    [property: Description("count: what was counted")] CountWhat? What = null,
    [property: Description("count: how many")] int? Value = null,
    [property: Description("count, moved: how many trays, or a list of tray numbers")] JsonElement? Trays = null,
    [property: Description("count: in how many cells; all of the trays when not given")] int? Cells = null,
    [property: Description("count: whether the counted cells stand for the rest; false when not given")] bool? Sample = null,
    [property: Description("surface, moved, worked")] string? BenchCode = null,
    [property: Description("surface")] SurfaceState? State = null,
    [property: Description("loss: how many plants")] int? Plants = null,
    [property: Description("loss: why")] string? Cause = null,
    [property: Description("moved")] string? TraySetCode = null,
    [property: Description("moved: the first space, when it is known")] int? FirstSpace = null,
    [property: Description("worked: the kind of work, when the tasks know it")] TaskKind? Task = null,
    [property: Description("worked: what was done; needed without a task")] string? Words = null);
