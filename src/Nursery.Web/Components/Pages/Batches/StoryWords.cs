using System.Globalization;
using NodaTime.Text;
using Nursery.Application.Batches;
using Nursery.Application.Benches;
using Nursery.Application.SeedLots;
using Nursery.Application.Tasks;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Tasks;

namespace Nursery.Web.Components.Pages.Batches;

/// <summary>What someone did to a batch, as the rest of a sentence that starts with their name.</summary>
public sealed class StoryWords(
    IReadOnlyList<StoryLine> story, IReadOnlyList<BenchItem> benches, IReadOnlyList<LotItem> lots)
{
    public string Of(StoryLine line) => Of(line.Value);

    private string Of(EntryValue value) => value switch
    {
        Planned planned => $"planned {Written.Count(planned.Trays, "tray")} × {planned.CellsPerTray} cells, {Written.Count(planned.SeedsPerCell, "seed")} a cell",
        Reserved reserved => $"reserved {Written.Spaces(reserved.Spaces.First, reserved.Spaces.Count)} on {Bench(reserved.Bench)} from {Day(reserved.From)} until {Day(reserved.To)}",
        Sown sown => $"sowed {Written.Count(sown.Seeds, "seed")} of {Lot(sown.Lot)} in {Written.Count(sown.Cells, "cell")}",
        Placed placed => $"put {Trays(placed.Trays)} on {Bench(placed.Bench)}{From(placed.FirstSpace)}",
        Moved moved => $"carried {Trays(moved.Trays)} to {Bench(moved.Bench)}{From(moved.FirstSpace)}",
        Done done => Finished(done.Task),
        NotYet notYet => $"left ‘{TaskTitles.Within(notYet.Task)}’ for later: {notYet.Reason}",
        Count count => Counted(count),
        Surface surface => $"found the surface {surface.State.ToString().ToLowerInvariant()}",
        Loss loss => $"reported {Written.Count(loss.Plants, "plant")} lost: {loss.Cause}",
        Worked worked => $"{(worked.Task is { } task ? Finished(task) : worked.Words)}{(worked is { Task: not null, Words: { } words } ? $" ({words})" : "")}, not on the list",
        Discarded discarded => $"discarded the batch: {discarded.Reason}",
        TraysUnshared own => $"gave it trays of its own, {own.TraySetCode}: {Written.Count(own.Trays, "tray")}, {Written.Count(own.Cells, "cell")}, no longer shared with {string.Join(", ", own.Without)}",
        TraysShared shared => $"gave it {shared.Part} of trays {shared.TraySetCode}, {Written.Count(shared.Cells, "cell")}, shared with {string.Join(", ", shared.With)}",
        TraysDiscarded discarded => $"discarded {Trays(discarded.Trays)}: {discarded.Cause}",
        ResowPlanned resow => $"planned {resow.BatchCode} to make up for {Written.Count(resow.Plants, "plant")} of it",
        Undo undo => story.FirstOrDefault(line => line.EntryId == undo.Entry.Value) is { } taken
            ? $"took back: {Of(taken.Value)}"
            : "took back an entry that has not arrived",
        Receipt receipt => $"received {Written.Count(receipt.Seeds, "seed")}",
        Replanned replanned => $"changed the plan: {replanned.What}",
        BatchReplanned replanned => $"replanned it: {Written.Count(replanned.Trays, "tray")}, to be sown {Day(replanned.SowOn)}{(replanned.LotCode is { } lot ? $", lot {lot}" : "")}{(replanned.SeedsPerCell is { } seeds ? $", {Written.Count(seeds, "seed")} a cell" : "")}",
        SetpointChanged setpoint => $"set a heat zone from {Day(setpoint.From)} on",
        TakenOutOfUse taken => $"took {Out(taken.Bench, taken.Zone is not null)} out of use from {Day(taken.From)} until {Day(taken.To)}{(taken.Why is { } why ? $": {why}" : "")}",
        GivenBack back => $"gave {Out(back.Bench, back.Zone is not null)} back from {Day(back.On)} on instead of {Day(back.Instead)}",
        Changed changed => $"changed {changed.What} {changed.Code}",
        Imported imported => $"imported {Written.Count(imported.Created, "row")} of {imported.What}",
        _ => throw new ArgumentOutOfRangeException(nameof(value), value, "an entry without a sentence"),
    };

    private string Out(Id<Bench> bench, bool zone) => zone ? $"a heat zone of {Bench(bench)}" : Bench(bench);

    private static string Finished(TaskKind task) => task switch
    {
        TaskKind.Sow => "finished the sowing",
        TaskKind.FirstWatering => "watered the first time",
        TaskKind.Look => "looked at the bench",
        TaskKind.Water => "watered",
        TaskKind.EmergenceCheck => "looked for seedlings and saw them",
        TaskKind.MoveOffHeat => "moved the trays off heat",
        TaskKind.Thin => "thinned to one plant a cell",
        TaskKind.Feed => "fed",
        TaskKind.Spacing => "set the trays apart",
        TaskKind.HardenOff => "began hardening off",
        TaskKind.ReadyCheck => "saw that the plants are ready",
        TaskKind.HandOver => "handed over",
        TaskKind.ClearBench => "cleared the spaces",
        TaskKind.Scout => "scouted the house",
        _ => throw new ArgumentOutOfRangeException(nameof(task), task, "a task without a sentence"),
    };

    private static string Counted(Count count)
    {
        var what = count.What switch
        {
            CountWhat.Seedlings => Written.Count(count.Value, "seedling"),
            CountWhat.CellsUp => Written.Count(count.Value, "cell") + " up",
            CountWhat.Blanks => Written.Count(count.Value, "blank"),
            _ => throw new ArgumentOutOfRangeException(nameof(count), count.What, "a kind of count without a word"),
        };
        return $"counted {what} in {Written.Count(count.Cells, "cell")}{(count.Sample ? ", a sample" : ", all of them")}";
    }

    private static string Trays(SpaceRun trays) => (trays.Count == 1 ? "tray " : "trays ") + trays;

    private static string From(int? firstSpace) =>
        firstSpace is { } first ? string.Create(CultureInfo.InvariantCulture, $", from space {first}") : "";

    private static string Day(string iso) => Written.Day(LocalDatePattern.Iso.Parse(iso).GetValueOrThrow());

    private string Bench(Id<Bench> id) =>
        benches.FirstOrDefault(bench => bench.Id == id.Value) is { } bench ? $"bench {bench.Code}" : "a bench no longer in use";

    private string Lot(Id<SeedLot> id) =>
        lots.FirstOrDefault(lot => lot.Id == id.Value) is { } lot ? $"lot {lot.Code}" : "a lot of another variety";
}
