using NodaTime;
using Nursery.Application.Access;
using Nursery.Application.Rounds;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Papers;

/// <summary>What is written on a line. Seedlings counted say that the look was done too; a reason says that it was not.</summary>
/// <param name="Id">A UUIDv7 whoever types makes, so that a line sent twice is stored once.</param>
/// <param name="Line">Its number.</param>
/// <param name="Seedlings">How many are up; null when nothing was counted.</param>
/// <param name="Cells">In how many cells, when only a sample was counted.</param>
/// <param name="NotYet">Why it was not done; null when it was.</param>
public sealed record FilledLine(Guid Id, int Line, int? Seedlings = null, int? Cells = null, string? NotYet = null);

/// <param name="Sheet">The number printed on it.</param>
/// <param name="WhoId">Who walked the round; null is whoever types.</param>
/// <param name="At">When, on the site's clock.</param>
/// <param name="Lines">As they are typed.</param>
public sealed record FilledSheet(int Sheet, Guid? WhoId, LocalDateTime At, IReadOnlyList<FilledLine> Lines);

/// <summary>What became of a line.</summary>
public sealed record LineResult(int Line, EntryOutcome Outcome, Refusal? Problem);

/// <summary>Records a round sheet filled in by hand: the same entries a tablet sends, in the name of who walked the round.</summary>
public sealed class EnterRoundSheet(ShowRoundSheet showSheet, ShowSite showSite, RecordEntries record)
{
    /// <exception cref="InvalidFields">A line or person that is none, or a sheet of more than 1,000 lines.</exception>
    public async Task<IReadOnlyList<LineResult>> HandleAsync(FilledSheet filled, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        var sheet = await showSheet.HandleAsync(filled.Sheet, actor, cancellation);
        Check(filled, sheet);
        var at = filled.At.InZoneLeniently(DateTimeZoneProviders.Tzdb[(await showSite.HandleAsync(actor, cancellation)).TimeZone]).ToOffsetDateTime();
        var who = filled.WhoId is { } id && id != actor.Id
            ? actor with { Id = id, Name = sheet.People.Single(person => person.Id == id).Name, Device = TypedBy(filled.Sheet, actor) }
            : actor with { Device = TypedBy(filled.Sheet, actor) };
        var results = new List<LineResult>();
        foreach (var line in filled.Lines)
        {
            results.Add(await RecordAsync(line, EntriesOf(line, sheet.Lines[line.Line - 1]), at, who, cancellation));
        }

        return results;
    }

    /// <summary>A count that is refused leaves the look open: the line is mended and typed again.</summary>
    private async Task<LineResult> RecordAsync(
        FilledLine line, IEnumerable<EntryContent> contents, OffsetDateTime at, Actor who, CancellationToken cancellation)
    {
        var outcome = EntryOutcome.Applied;
        foreach (var (content, i) in contents.Select((content, i) => (content, i)))
        {
            var id = i == 0 ? line.Id : DerivedId.From(line.Id, "round sheet", i);
            var stored = (await record.HandleAsync([new EntryRequest(id, at, content)], who, cancellation))[0];
            if (stored.Outcome == EntryOutcome.Refused)
            {
                return new LineResult(line.Line, stored.Outcome, stored.Problem);
            }

            outcome = stored.Outcome;
        }

        return new LineResult(line.Line, outcome, null);
    }

    private static string TypedBy(int sheet, Actor actor) => FormattableString.Invariant($"round sheet {sheet}, typed by {actor.Name}");

    private static IEnumerable<EntryContent> EntriesOf(FilledLine filled, SheetLine line)
    {
        if (filled.NotYet is { } reason)
        {
            yield return new TaskNotYet(line.TaskId, reason);
            yield break;
        }

        if (filled.Seedlings is { } seedlings)
        {
            yield return new PlantsCounted(line.BatchId!.Value, CountWhat.Seedlings, seedlings, null, filled.Cells, Sample: filled.Cells is not null);
        }

        yield return new TaskDone(line.TaskId);
    }

    private static void Check(FilledSheet filled, EnterableSheet sheet)
    {
        var checks = new FieldChecks().Range("lines", filled.Lines.Count, 1, 1000);
        foreach (var line in filled.Lines)
        {
            checks.Range("line", line.Line, 1, sheet.Lines.Count);
            if (line.Seedlings is { } seedlings)
            {
                checks.Range("seedlings", seedlings, 0, 1_000_000);
            }

            if (line.Seedlings is not null && line.Line >= 1 && line.Line <= sheet.Lines.Count && sheet.Lines[line.Line - 1].BatchId is null)
            {
                checks.Fail("line", line.Line.ToString(System.Globalization.CultureInfo.InvariantCulture), "a line about a batch, to count seedlings");
            }
        }

        if (filled.WhoId is { } id && sheet.People.All(person => person.Id != id))
        {
            checks.Fail("who", id.ToString(), "someone who may report work on this site");
        }

        checks.Done();
    }
}
