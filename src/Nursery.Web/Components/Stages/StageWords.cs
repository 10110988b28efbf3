using Nursery.Domain.Batches;

namespace Nursery.Web.Components.Stages;

/// <summary>The word for a stage, the same on map, lists and tags; and the id of its pattern.</summary>
public static class StageWords
{
    public static string Of(BatchStage stage) => stage switch
    {
        BatchStage.Planned => "planned",
        BatchStage.Sown => "sown",
        BatchStage.Emerging => "emerging",
        BatchStage.GrowingOn => "growing on",
        BatchStage.HardeningOff => "hardening off",
        BatchStage.Ready => "ready",
        BatchStage.HandedOver => "handed over",
        BatchStage.Discarded => "discarded",
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "No word for this stage"),
    };

    public static string PatternId(BatchStage stage) => "stage-" + Of(stage).Replace(' ', '-');
}
