using Nursery.Agronomy;
using Nursery.Agronomy.Sowing;
using Nursery.Application.Computed;
using Nursery.Domain.Crops;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sowings;

/// <summary>On what terms a crop is sown: chance asked for, what is kept and survives, and prices. What the site or crop does not say is a default
/// from memory, and says so.</summary>
internal sealed record SowingTerms
{
    private const double Confidence95 = 0.95;
    private const decimal UsualTrayLoss = 0.005m;
    private const decimal UsualSeedPrice = 20;
    private const decimal UsualTrayPrice = 5;
    private const decimal UsualHourPrice = 18;
    private const decimal UsualHeatPrice = 0.05m;

    /// <summary>Of two seeds of a cell (from memory).</summary>
    public const double Correlation = 0.05;

    private const string Memory = "from memory";
    private const string OfSite = "Setup, site";
    private const string OfCrop = "Setup, crop";

    public required Fraction Confidence { get; init; }

    public required Keep Keep { get; init; }

    public required BetaShape Survival { get; init; }

    public required double TrayLoss { get; init; }

    public required SowingCosts Costs { get; init; }

    /// <summary>What the terms are and where they are from.</summary>
    public required IReadOnlyList<HowInput> Inputs { get; init; }

    public static SowingTerms Of(Site site, Crop crop, int cellsPerTray)
    {
        var inputs = new List<HowInput>();
        var confidence = Read("chance asked for", site.SowingConfidence, (decimal)Confidence95, 100, "%", OfSite, "common practice, no source");
        var keep = KeepOf(crop, inputs);
        inputs.AddRange(CropSurvival.Inputs(crop));
        inputs.Add(HowInput.Of("correlation of seeds of a cell", Correlation, "0.00", "", Memory));
        var trayLoss = Read("chance to lose a whole tray", site.TrayLoss, UsualTrayLoss, 100, "%", OfSite, Memory);
        var seed = crop.SeedPrice is { } own
            ? Read("price of 1,000 seeds", own, own, 1, site.Currency, OfCrop, Memory)
            : Read("price of 1,000 seeds", site.SeedPrice, UsualSeedPrice, 1, site.Currency, OfSite, Memory);
        var tray = Read("price of a tray with mix and bench space", site.TrayPrice, UsualTrayPrice, 1, site.Currency, OfSite, Memory);
        var hour = Read("price of an hour", site.HourPrice, UsualHourPrice, 1, site.Currency, OfSite, Memory);
        var heat = Read("price of a tray a day on heat", site.HeatPrice, UsualHeatPrice, 1, site.Currency, OfSite, Memory);
        return new SowingTerms
        {
            Confidence = new Fraction(confidence),
            Keep = keep,
            Survival = CropSurvival.Of(crop),
            TrayLoss = trayLoss,
            Costs = new SowingCosts(
                Seed: seed / 1000, Cell: tray / cellsPerTray, ThinSecond: hour / 3600, HeatDay: heat, HeatDays: crop.PlannedHeatDays),
            Inputs = inputs,
        };

        double Read(string name, decimal? said, decimal usual, double scale, string unit, string where, string otherwise)
        {
            var value = (double)(said ?? usual);
            inputs.Add(HowInput.Of(name, value * scale, "0.###", unit, said is null ? otherwise : where));
            return value;
        }
    }

    /// <summary>Whether so many seeds a cell are sown at all: singles of a crop that is never thinned would grow up in twos.</summary>
    public bool Suits(Crop crop, int seedsPerCell) => seedsPerCell <= Keep.High || (Keep == Keep.One && crop.ThinDaysAfterEmergence is not null);

    /// <summary>Seeds a cell worth comparing: one to five, or those of the clump.</summary>
    public IReadOnlyList<int> Candidates => Keep.High == 1 ? [1, 2, 3, 4, 5] : [.. Enumerable.Range(Keep.Low, Keep.High - Keep.Low + 1)];

    private static Keep KeepOf(Crop crop, List<HowInput> inputs)
    {
        var (keep, from) = crop switch
        {
            { KeepLow: { } low, KeepHigh: { } high } => (new Keep(low, high), OfCrop),

            // Several seeds a cell and no thinning is a clump: half of it counts as filled, two more than usual may stand in it.
            { ThinDaysAfterEmergence: null, SeedsPerCell: > 1 and var seeds } =>
                (new Keep((Math.Min(15, seeds) + 1) / 2, Math.Min(15, seeds + 2)), "several seeds a cell, never thinned: a clump, from memory"),
            _ => (Keep.One, "common practice, no source"),
        };
        inputs.Add(new HowInput("plants kept in a cell", keep.High == 1 ? "1" : FormattableString.Invariant($"{keep.Low} to {keep.High}"), "", from));
        return keep;
    }
}
