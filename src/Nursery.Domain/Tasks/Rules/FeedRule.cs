using System.Globalization;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Feed;
using Nursery.Domain.Batches;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Feed from the crop's days after emergence on, and again every so many days, until hardening off begins. None before the
/// seed leaves are open.</summary>
public static class FeedRule
{
    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State.SownOn is null
            || facts.UpOn is not { } up
            || facts.State.Stage >= BatchStage.HardeningOff
            || facts.Crop.FeedFromDays is not { } from
            || facts.Crop.FeedEveryDays is not { } every)
        {
            return null;
        }

        var first = up.PlusDays(from);
        var due = facts.State.FedOn is { } fed ? LocalDate.Max(first, fed.PlusDays(every)) : first;
        var last = facts.State.FedOn is { } on ? $"last fed {Day(on)}" : "not fed yet";
        return new DueTask(
            TaskKind.Feed,
            facts.Next(TaskKind.Feed),
            due,
            $"Up since {Day(up)}, {last}; every {Days(every)} from {Days(from)} after emergence. {Strength(facts, up, due)}; the product's label goes before this");
    }

    /// <summary>By what the seedlings show on the day it is due.</summary>
    private static string Strength(BatchFacts facts, LocalDate up, LocalDate due)
    {
        var leaves = due >= up.PlusDays(facts.Crop.TrueLeafDays);
        var (low, high) = FeedStrength.NitrogenPpm(leaves ? FeedStage.TrueLeaves : FeedStage.Cotyledons);
        var ppm = string.Create(CultureInfo.InvariantCulture, $"{(low == high ? $"{low:0}" : $"{low:0}–{high:0}")} ppm N {(leaves ? "with true leaves" : "on seed leaves")}");
        if (facts.Care is not { FeedNitrogenPercent: { } percent } care)
        {
            return ppm;
        }

        var ratio = care.InjectorRatio ?? 1;
        string Grams(double strength) => FeedSolution.Of(strength, Fraction.FromPercent((double)percent), Volume.FromGallons(1), ratio)
            .PerLiterConcentrate.Grams.ToString(ratio == 1 ? "0.00" : "0.#", CultureInfo.InvariantCulture);
        var grams = low == high ? Grams(low) : $"{Grams(low)}–{Grams(high)}";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{ppm}: {grams} g of a {percent:0.##} % N feed in each liter {(ratio == 1 ? "of water" : $"of concentrate at 1:{ratio}")}");
    }
}
