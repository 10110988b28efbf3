using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Plans;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Printing.PlanTimeLines;

namespace Nursery.Application.Papers;

/// <summary>Which plan to print.</summary>
public enum PlanToPrint
{
    InForce,

    /// <summary>The latest, while it is neither accepted nor dropped.</summary>
    Proposal,
}

/// <summary>A plan on a time line, by zone and by bench, over its season.</summary>
public sealed class PrintPlanTimeLine(
    IDbContextFactory<NurseryDbContext> databases, ShowPlan showPlan, ShowPlanInForce showPlanInForce, TimeProvider time)
{
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">A proposal is asked for and there is no open one.</exception>
    public async Task<byte[]> HandleAsync(PlanToPrint? plan, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var inForce = await showPlanInForce.HandleAsync(actor, cancellation);
        if (plan != PlanToPrint.Proposal)
        {
            return PlanTimeLineDocument.Render(new PlanTimeLineModel(
                site.Imprint(time), site.Sheet(paper), "Plan in force", "Sowing days, heat and benches as they are reserved now.",
                Weeks(inForce.Start, inForce.Days), [.. Sections(site, inForce.Start, inForce.Days, inForce.Lines, inForce.Loads, inForce.Names)],
                Notes(inForce.Lines, inForce, inForce.Unplaced, [])));
        }

        var (_, latest) = await showPlan.LatestAsync(actor, cancellation);
        if (latest is not { Run.Proposal: ProposalState.Open } proposal)
        {
            throw new InvalidFields("plan", "proposal", "inForce, as there is no open proposal");
        }

        return PlanTimeLineDocument.Render(new PlanTimeLineModel(
            site.Imprint(time), site.Sheet(paper), "Proposal, not in force", $"Computed {At(site, proposal.Run)} for {proposal.Run.StartedBy}. Nothing of it holds before it is accepted.",
            Weeks(proposal.Start, proposal.Days),
            [.. Sections(site, proposal.Start, proposal.Days, proposal.Then, [.. proposal.Loads.Select(load => load.Then)], inForce.Names)],
            Notes(proposal.Then, inForce, proposal.Run.Unplaced, proposal.Run.Remarks)));
    }

    private static string At(Site site, PlanRun run) =>
        (run.EndedAt ?? run.StartedAt).InZone(site.Zone).ToString("d MMMM uuuu, HH:mm", CultureInfo.InvariantCulture);

    private static IReadOnlyList<string> Weeks(DateOnly start, int days) =>
        [.. Enumerable.Range(0, (days + 6) / 7).Select(week => start.AddDays(7 * week).ToString("d MMM yyyy", CultureInfo.InvariantCulture))];

    private static IEnumerable<TimeLineSection> Sections(
        Site site, DateOnly start, int days, IReadOnlyList<PlanLine> lines, IReadOnlyList<PlaceLoad> loads, IReadOnlyDictionary<string, string> names)
    {
        yield return Section("heat zones", kind => kind == PlaceKind.Heat);
        yield return Section("benches", kind => kind != PlaceKind.Heat);

        TimeLineSection Section(string name, Func<PlaceKind, bool> has) => new(
            name, [.. lines.Where(line => has(line.Kind)).Select(Row)],
            [.. loads.Where(load => has(load.Kind) && load.Capacity > 0).Select(load => new TimeLineLoad(Word(load.Kind), load.Capacity, load.Weeks))]);

        TimeLineRow Row(PlanLine line) => new(
            line.Bench is null ? $"Bench {line.Code}" : $"Zone {line.Code}",
            $"{(line.Bench is { } bench ? $"bench {bench}" : Word(line.Kind).ToLowerInvariant())}, {PaperWords.Count(line.Spaces, "space", "spaces")}",
            [
                .. line.Stays.OrderBy(stay => stay.From).ThenBy(stay => stay.FirstSpace).Select(stay => new TimeLineBar(
                    stay.Code, Run(stay.FirstSpace, stay.Spaces), names.GetValueOrDefault(stay.Code, ""), Day(stay.From), Day(stay.To), stay.Stays)),
            ],
            [
                .. line.OutOfUse.Select(span => new TimeLineSetpoint(Day(span.From), Day(span.To), $"OUT OF USE {Short(span.From)}–{Short(span.To.AddDays(-1))}")),
                .. line.Setpoints.Select(set => new TimeLineSetpoint(
                    Day(set.From), Math.Min(days, Day(set.To)), $"{Degrees.Of(Temperature.FromFahrenheit((decimal)set.SetpointF).Celsius, site.Units)} {Short(set.From)}–{Short(set.To.AddDays(-1))}")),
            ]);

        int Day(DateOnly day) => Math.Clamp(day.DayNumber - start.DayNumber, 0, days);
    }

    private static List<TimeLineNote> Notes(
        IReadOnlyList<PlanLine> lines, PlanInForce inForce, IReadOnlyList<NotInPlan> unplaced, IReadOnlyList<string> remarks)
    {
        var shared = lines.SelectMany(line => line.Stays).Select(stay => stay.Code).Distinct()
            .Where(code => inForce.Sharing.GetValueOrDefault(code) is { Count: > 0 });
        return
        [
            new("without a place", [.. unplaced.Select(batch => $"{batch.Batch} {inForce.Names.GetValueOrDefault(batch.Batch)}, {PaperWords.Trays(batch.Trays)}: {batch.Why.TrimEnd('.')}.")]),
            new("shared trays", [.. shared.Select(code => $"{code} stands for {string.Join(", ", inForce.Sharing[code])} too: they share its trays.")]),
            new("left out", [.. remarks.Select(remark => remark.TrimEnd('.') + ".")]),
        ];
    }

    private static string Word(PlaceKind kind) => kind switch
    {
        PlaceKind.Heat => "Heat zones",
        PlaceKind.Warm => "Warm benches",
        PlaceKind.Cool => "Cool benches",
        PlaceKind.Hardening => "Hardening off",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a place without a word"),
    };

    private static string Run(int first, int count) => new Domain.SpaceRun(first, count).ToString();

    private static string Short(DateOnly day) => day.ToString("d MMM", CultureInfo.InvariantCulture);
}
