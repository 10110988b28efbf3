using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Papers;
using Nursery.Domain.Sites;
using Nursery.Web.Api;

namespace Nursery.Web.Components.Pages.Papers;

/// <summary>A paper with what it is to be about, and the address of its PDF.</summary>
public sealed class PaperChoice
{
    public PaperKind Kind { get; set; } = PaperKind.TrayTags;

    public string House { get; set; } = "";

    public string Code { get; set; } = "";

    public string Order { get; set; } = "";

    /// <summary>Null leaves the day out, where a paper allows it.</summary>
    public LocalDate? Day { get; set; }

    public int Days { get; set; } = 7;

    public TagPaper Tags { get; set; }

    public PaperSize Signs { get; set; }

    public SheetSize Sheet { get; set; }

    public PlanToPrint Plan { get; set; }

    public bool HasHouse => Kind is PaperKind.TrayTags or PaperKind.BenchTags or PaperKind.RoundSheet or PaperKind.BenchPlan;

    public bool HasDays => Kind is PaperKind.CarryList or PaperKind.SowingSheet or PaperKind.MixSheet;

    public bool HasDay => Kind is not (PaperKind.BenchTags or PaperKind.PatchSheet or PaperKind.PlanTimeLine);

    /// <summary>The last day of a sowing or mix sheet; null for other papers, and when no first day is chosen.</summary>
    public LocalDate? LastDay => Kind is PaperKind.SowingSheet or PaperKind.MixSheet ? Day?.PlusDays(Days - 1) : null;

    public static string Title(PaperKind kind) => kind switch
    {
        PaperKind.TrayTags => "Tray tags",
        PaperKind.BenchTags => "Bench tags",
        PaperKind.SowingSheet => "Sowing sheet",
        PaperKind.MixSheet => "Mix sheet",
        PaperKind.RoundSheet => "Round sheet",
        PaperKind.CarryList => "Carry list",
        PaperKind.PickList => "Pick list",
        PaperKind.PatchSheet => "Patch sheet",
        PaperKind.BenchPlan => "Bench plan",
        PaperKind.PlanTimeLine => "Plan time line",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a paper without a title"),
    };

    public static string About(PaperKind kind) => kind switch
    {
        PaperKind.TrayTags => "A tag for each tray: its code, what grows in it, what it needs next, and a code that opens it on a tablet.",
        PaperKind.BenchTags => "A tag for each bench: its name, its zones, what lies on it now, and a code that opens the bench on a tablet.",
        PaperKind.SowingSheet => "What is to be sown, day by day: lot, trays, seeds to take, depth, light, and where the trays go, with a box to tick. Late sowings stand first.",
        PaperKind.MixSheet => "Growing mix for what is to be sown, day by day: how much, how many bales, what to stir in, which trays it fills, and the usual cautions.",
        PaperKind.RoundSheet => "The open tasks of a day in walking order, for when there is no tablet: boxes to tick, room to count, line numbers to type afterwards.",
        PaperKind.CarryList => "The moves the plan has: which trays, from where, to where. What should have moved already stands first.",
        PaperKind.PickList => "What to pick for an order, or for all orders of a day: how many, where it stands, boxes to tick, a line to sign.",
        PaperKind.PatchSheet => "Which seedlings to lift out of which tray into blanks of which, with the fewest moves: trays become full, others are empty and go.",
        PaperKind.PlanTimeLine => "The whole season of a plan by heat zone and by bench: which batch stands where from when to when, setpoints with their days, how full it gets each week.",
        PaperKind.BenchPlan => "A house seen from above, to scale, on one page: trays by stage, codes, heat zones.",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a paper without words"),
    };

    public TrayTagsRequest TagsRequest() => new(Given(Code), Given(House), Day, Tags);

    internal static string? Given(string text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    public string Address()
    {
        var values = Values().Where(value => value.Value.Length > 0).Select(value => $"{value.Name}={Uri.EscapeDataString(value.Value)}");
        return $"/api/v1/papers/{File()}.pdf?{string.Join('&', values)}";
    }

    private string File() => Title(Kind).ToLowerInvariant().Replace(' ', '-');

    private IEnumerable<(string Name, string Value)> Values()
    {
        yield return ("paper", Kind switch
        {
            PaperKind.TrayTags => ApiJson.Word(Tags),
            PaperKind.BenchTags => ApiJson.Word(Signs),
            _ => ApiJson.Word(Sheet),
        });
        if (HasHouse)
        {
            yield return ("house", House);
        }

        if (Kind is PaperKind.TrayTags or PaperKind.PatchSheet)
        {
            yield return ("code", Code.Trim());
        }

        if (Kind == PaperKind.PlanTimeLine)
        {
            yield return ("plan", ApiJson.Word(Plan));
        }

        if (Kind == PaperKind.PickList)
        {
            yield return ("order", Order.Trim());
        }

        if (HasDay && Day is { } day)
        {
            yield return (DayName, LocalDatePattern.Iso.Format(day));
        }

        if (LastDay is { } last)
        {
            yield return ("to", LocalDatePattern.Iso.Format(last));
        }

        if (Kind == PaperKind.CarryList)
        {
            yield return ("days", Days.ToString(CultureInfo.InvariantCulture));
        }
    }

    private string DayName => Kind switch
    {
        PaperKind.TrayTags => "sown",
        PaperKind.CarryList or PaperKind.SowingSheet or PaperKind.MixSheet => "from",
        _ => "on",
    };
}
