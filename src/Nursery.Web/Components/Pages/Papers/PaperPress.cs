using Nursery.Application.Papers;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Papers;

/// <summary>Prints what is chosen, as the address of its PDF would.</summary>
internal sealed class PaperPress(
    PrintTrayTags trayTags,
    PrintBenchTags benchTags,
    PrintSowingSheet sowingSheet,
    PrintRoundSheet roundSheet,
    PrintCarryList carryList,
    PrintPickList pickList,
    PrintBenchPlan benchPlan)
{
    /// <param name="choice">What to print.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="drawn">Told how many tags are drawn; other papers are short.</param>
    /// <param name="stop">Ends it.</param>
    public Task<byte[]> PrintAsync(PaperChoice choice, Actor actor, IProgress<int> drawn, CancellationToken stop)
    {
        var house = Given(choice.House);
        return choice.Kind switch
        {
            PaperKind.TrayTags => trayTags.HandleAsync(new TrayTagsRequest(Given(choice.Code), house, choice.Day, choice.Tags), actor, drawn, stop),
            PaperKind.BenchTags => benchTags.HandleAsync(house, choice.Signs, actor, stop),
            PaperKind.SowingSheet => sowingSheet.HandleAsync(choice.Day, choice.LastDay, SizeOf(choice.Sheet), actor, stop),
            PaperKind.RoundSheet => roundSheet.HandleAsync(house, choice.Day, choice.Sheet, actor, stop),
            PaperKind.CarryList => carryList.HandleAsync(choice.Day, choice.Days, choice.Sheet, actor, stop),
            PaperKind.PickList => pickList.HandleAsync(Given(choice.Order), choice.Day, choice.Sheet, actor, stop),
            PaperKind.BenchPlan => benchPlan.HandleAsync(house, choice.Day, choice.Sheet, actor, stop),
            _ => throw new ArgumentOutOfRangeException(nameof(choice), choice.Kind, "a paper nobody prints"),
        };
    }

    private static PaperSize SizeOf(SheetSize sheet) => sheet == SheetSize.A4 ? PaperSize.A4 : PaperSize.Letter;

    private static string? Given(string text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
