using NodaTime;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Look for hooks from most of the days to emergence on, and every other day until the trays leave the heat.</summary>
public static class EmergenceCheckRule
{
    /// <summary>The first look, as a share of the days to emergence.</summary>
    private const double FirstLookShare = 0.7;
    private const int LookAgainDays = 2;

    public static DueTask? For(BatchFacts facts)
    {
        var state = facts.State;
        if (state.SownOn is not { } sown || state.OffHeatOn is not null)
        {
            return null;
        }

        var days = facts.Crop.DaysToEmergence;
        var firstLook = sown.PlusDays(Math.Max(1, (int)Math.Round(days * FirstLookShare, MidpointRounding.AwayFromZero)));
        var due = state.LookedOn is { } looked ? LocalDate.Max(firstLook, looked.PlusDays(LookAgainDays)) : firstLook;
        var soFar = state.EmergedFraction is { } up ? $"{Percent(up)} of seeds were up at the last count" : "none counted yet";
        return new DueTask(
            TaskKind.EmergenceCheck,
            facts.Next(TaskKind.EmergenceCheck),
            due,
            $"Sown {Day(sown)}; {facts.Crop.Name.ToLowerInvariant()} comes up in about {Days(days)}; {soFar}");
    }
}
