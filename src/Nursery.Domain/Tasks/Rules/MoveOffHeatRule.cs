using NodaTime;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Take trays off the heat when the crop's share of the expected plants is up. Counts decide when there are any: enough up is
/// now, too few is not before the day after the last look. Without counts the crop's usual day stands.</summary>
public static class MoveOffHeatRule
{
    private const int LookFirstDays = 1;

    public static DueTask? For(BatchFacts facts)
    {
        var state = facts.State;
        if (state.SownOn is not { } sown || state.OffHeatOn is not null)
        {
            return null;
        }

        var share = facts.Crop.MoveOffFraction;
        var days = facts.Crop.PlannedHeatDays;
        var usual = sown.PlusDays(days);
        if (state is not { EmergedFraction: { } up, CountedOn: { } counted })
        {
            return Once(usual, $"{Days(days)} after sowing on {Day(sown)}, the crop's usual day, for nothing is counted; leave once {Percent(share)} of the plants are up");
        }

        var expected = facts.ExpectedFraction ?? 1;
        if (up >= share * expected)
        {
            return Once(counted, $"{Percent(up)} of seeds up counted on {Day(counted)}, {Percent(share)} of the {Percent(expected)} expected is enough: take {Trays(facts.Trays)} off the heat before they stretch");
        }

        var next = (state.LookedOn ?? counted).PlusDays(LookFirstDays);
        return Once(
            LocalDate.Max(usual, next),
            $"Only {Percent(up)} of seeds up counted on {Day(counted)}; leave at {Percent(share * expected)}, {Percent(share)} of the {Percent(expected)} expected; the crop's usual day is {Day(usual)}");
    }

    private static DueTask Once(LocalDate due, string why) => new(TaskKind.MoveOffHeat, 1, due, why);
}
