using NodaTime;
using Nursery.Domain.Batches;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>What is wrong with a tray set, in plain sentences, the worst first.</summary>
public static class Warnings
{
    public static IEnumerable<string> Of(TraySetOnBench set, LocalDate day, LocalDate today)
    {
        if (set.SharedWith.Count > 0)
        {
            yield return $"Double use: {string.Join(", ", set.SharedWith)} has spaces here too.";
        }

        switch (set.Fact)
        {
            case PlanAgainstFact.StillOnHeat:
                yield return "Still on heat: it stands in a heat zone where nothing is reserved for it today. Move it off the heat.";
                break;
            case PlanAgainstFact.NotByPlan:
                yield return "Not by plan: it stands here, and nothing is reserved for it here today.";
                break;
            case PlanAgainstFact.ReservedOnly when day == today && set.Stage is not BatchStage.Planned:
                yield return "Reserved here from today's plan, but nobody has said that it stands here.";
                break;
        }

        foreach (var batch in set.Batches.Where(batch => batch.SownOn is null && batch.SowOn < today && batch.Stage == BatchStage.Planned))
        {
            yield return $"{batch.BatchCode} was to be sown on {MapText.Day(batch.SowOn)} and is not.";
        }
    }
}
