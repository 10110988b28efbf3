using Nursery.Application.Papers;
using Nursery.Domain.People;

namespace Nursery.Web.Components.Pages.Papers;

/// <summary>Prints what is chosen, as the address of its PDF would.</summary>
internal sealed class PaperPress(
    PrintTrayTags trayTags,
    PrintBenchTags benchTags,
    PrintRoundSheet roundSheet,
    PrintCarryList carryList,
    PrintPickList pickList,
    PrintBenchPlan benchPlan)
{
    public Task<byte[]> PrintAsync(PaperChoice choice, Actor actor)
    {
        var house = Given(choice.House);
        return choice.Kind switch
        {
            PaperKind.TrayTags => trayTags.HandleAsync(new TrayTagsRequest(Given(choice.Code), house, choice.Day, choice.Tags), actor),
            PaperKind.BenchTags => benchTags.HandleAsync(house, choice.Signs, actor),
            PaperKind.RoundSheet => roundSheet.HandleAsync(house, choice.Day, choice.Sheet, actor),
            PaperKind.CarryList => carryList.HandleAsync(choice.Day, choice.Days, choice.Sheet, actor),
            PaperKind.PickList => pickList.HandleAsync(Given(choice.Order), choice.Day, choice.Sheet, actor),
            PaperKind.BenchPlan => benchPlan.HandleAsync(house, choice.Day, choice.Sheet, actor),
            _ => throw new ArgumentOutOfRangeException(nameof(choice), choice.Kind, "a paper nobody prints"),
        };
    }

    private static string? Given(string text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
