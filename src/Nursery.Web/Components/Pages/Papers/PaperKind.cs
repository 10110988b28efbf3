namespace Nursery.Web.Components.Pages.Papers;

/// <summary>The papers there are, in the order they are offered.</summary>
public enum PaperKind
{
    TrayTags,
    BenchTags,
    SowingSheet,
    MixSheet,
    RoundSheet,
    CarryList,
    PickList,
    PatchSheet,
    BenchPlan,
    PlanTimeLine,
}
