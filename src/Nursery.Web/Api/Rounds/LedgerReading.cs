using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Rounds;

/// <summary>Reads reported entries. One that cannot be read refuses the whole request: a client that speaks wrongly is mended, not half heard.</summary>
internal static class LedgerReading
{
    public const int MostEntries = 200;

    private static readonly Dictionary<string, Func<JsonFields, EntryContent>> Kinds = new()
    {
        ["done"] = entry => new TaskDone(entry.Id("taskId")),
        ["undo"] = entry => new EntryUndone(entry.Id("entryId")),
        ["notYet"] = entry => new TaskNotYet(entry.Id("taskId"), entry.Text("reason")),
        ["count"] = entry => new PlantsCounted(
            entry.Id("batchId"),
            entry.Word<CountWhat>("what"),
            entry.Whole("value"),
            entry.Has("trays") ? TraysOf(entry) : null,
            entry.OptionalWhole("cells"),
            entry.OptionalFlag("sample")),
        ["surface"] = entry => new SurfaceSeen(entry.Text("benchCode"), entry.Word<SurfaceState>("state")),
        ["loss"] = entry => new PlantsLost(entry.Id("batchId"), entry.Whole("plants"), entry.Text("cause")),
        ["moved"] = entry => new TraysMoved(
            entry.Text("traySetCode"), TraysOf(entry), entry.Text("benchCode"), entry.OptionalWhole("firstSpace")),
        ["worked"] = entry => new WorkDone(
            entry.Has("task") ? entry.Word<TaskKind>("task") : null,
            entry.Has("batchId") ? entry.Id("batchId") : null,
            entry.OptionalText("benchCode"),
            entry.OptionalText("words")),
    };

    public static IReadOnlyList<EntryRequest> Read(JsonFields body)
    {
        var entries = body.Objects("entries", MostEntries).Select(EntryOf).ToList();
        body.Done();
        return [.. entries.Select(entry => entry!)];
    }

    /// <summary>The entry; null when its kind is unknown, which the fields then say.</summary>
    private static EntryRequest? EntryOf(JsonFields entry)
    {
        var (id, happenedAt) = (entry.Id("id"), entry.Moment("happenedAt"));
        return entry.Word("kind", Kinds.Keys) is { } kind ? new EntryRequest(id, happenedAt, Kinds[kind](entry)) : null;
    }

    private static TrayChoice TraysOf(JsonFields entry) =>
        entry.IsList("trays") ? new TrayChoice(null, entry.Wholes("trays")) : new TrayChoice(entry.Whole("trays"), null);
}
