using Nursery.Application.Papers;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Papers;

/// <summary>Prints what is chosen, as the address of its PDF would.</summary>
internal sealed class PaperPress(
    PrintTrayTags trayTags,
    PrintBenchTags benchTags,
    PrintSowingSheet sowingSheet,
    PrintMixSheet mixSheet,
    PrintRoundSheet roundSheet,
    PrintCarryList carryList,
    PrintPickList pickList,
    PrintPatchSheet patchSheet,
    PrintBenchPlan benchPlan,
    PrintPlanTimeLine planTimeLine)
{
    /// <summary>What is shown before it is printed: the whole paper, or of many tags the first pages.</summary>
    /// <returns>A PDF; and how many tags there are in all, for tray tags.</returns>
    public async Task<(byte[] Pdf, int? Tags)> PreviewAsync(PaperChoice choice, Actor actor) => choice.Kind == PaperKind.TrayTags
        ? await trayTags.PreviewAsync(choice.TagsRequest(), actor)
        : (await PrintAsync(choice, actor), null);

    private Task<byte[]> PrintAsync(PaperChoice choice, Actor actor)
    {
        var house = PaperChoice.Given(choice.House);
        return choice.Kind switch
        {
            PaperKind.BenchTags => benchTags.HandleAsync(house, choice.Signs, actor),
            PaperKind.SowingSheet => sowingSheet.HandleAsync(choice.Day, choice.LastDay, choice.Sheet, actor),
            PaperKind.MixSheet => mixSheet.HandleAsync(choice.Day, choice.LastDay, choice.Sheet, actor),
            PaperKind.RoundSheet => roundSheet.HandleAsync(house, choice.Day, choice.Sheet, actor),
            PaperKind.CarryList => carryList.HandleAsync(choice.Day, choice.Days, choice.Sheet, actor),
            PaperKind.PickList => pickList.HandleAsync(PaperChoice.Given(choice.Order), choice.Day, choice.Sheet, actor),
            PaperKind.PatchSheet => patchSheet.HandleAsync(PaperChoice.Given(choice.Code), choice.Sheet, actor),
            PaperKind.BenchPlan => benchPlan.HandleAsync(house, choice.Day, choice.Sheet, actor),
            PaperKind.PlanTimeLine => planTimeLine.HandleAsync(choice.Plan, choice.Sheet, actor),
            _ => throw new ArgumentOutOfRangeException(nameof(choice), choice.Kind, "a paper nobody prints"),
        };
    }
}
