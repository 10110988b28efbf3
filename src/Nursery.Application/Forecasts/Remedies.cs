using System.Globalization;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Forecast;
using Nursery.Application.Computed;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Forecasts;

/// <summary>All remedies of one short batch, in the order they are always told.</summary>
internal sealed class Remedies(ForecastMaking batch, RemedyGround seed, SeedChances chances)
{
    private const int MostTrays = 200;
    private static readonly RemedyCosts Costs = new();

    private readonly BatchForecast _forecast = batch.Forecast;
    private readonly EmergenceOutlook _outlook = batch.Outlook!;

    /// <summary>Ordered, and what was lost beyond what survival expects.</summary>
    private int Wanted => _forecast.Wanted + batch.Gone;

    private int Missing => (int)Math.Ceiling(_forecast.ExpectedMissing);

    private double CostOfNothing => Costs.MissingPlant * _outlook.MissingOf(Wanted);

    public ShortStandItem Item()
    {
        var resow = OfLots(seed.LotsOf(batch.Ground.Row.Variety).Select(lot => (lot, batch.Ground.Row.Variety, true)));
        Remedy[] all = [Slack(), Patch(), Resown(resow), Other(), Part(resow), Late(resow)];
        var regret = all.Where(remedy => remedy is { CanBe: true, Saves: not null }).Select(remedy => remedy.Saves!.Value).DefaultIfEmpty(0).Max();
        return new ShortStandItem(_forecast, all, CostOfNothing, Math.Max(0, regret), How());
    }

    private Remedy Slack() => _forecast.SlackDays is { } days and > 0
        ? new Remedy(RemedyKind.Slack, $"{Count(days, "day")} between ready by plan and due: {Until()}", true, 0, 0, null, 0) { LastDay = _forecast.LastResowOn }
        : new Remedy(RemedyKind.Slack, "None: the plan has the plants ready on the day they are due", false, 0, 0, null, 0);

    private string Until() => _forecast.LastResowOn is { } last && last >= _forecast.Today
        ? $"a resow is in time until {Day(last)}"
        : "too few for a resow, enough for slow seedlings to catch up";

    private Remedy Patch()
    {
        var found = _outlook.Forecast;
        var seeds = (double)_forecast.Cells * _forecast.SeedsPerCell;
        var spare = (int)Math.Max(0, Math.Floor((found.FinalFraction.Median * seeds) - found.Stand.Median));
        var blanks = (int)Math.Max(0, _forecast.Cells - found.Stand.Median);
        var moves = Math.Min(Math.Min(spare, blanks), (int)Math.Ceiling(Missing / batch.Survival.Mean));
        if (_forecast.SeedsPerCell == 1 || batch.Ground.Row.Batch.State.ThinnedOn is not null || moves == 0)
        {
            return new Remedy(
                RemedyKind.Patch, batch.Ground.Row.Batch.State.ThinnedOn is null ? "No cell has a seedling to spare" : "Thinned: no seedling to spare", false, 0, null, null, 0);
        }

        var plants = (int)Math.Floor(moves * batch.Survival.Mean);
        var saves = CostOfNothing - (Costs.MissingPlant * _outlook.MissingOf(Math.Max(0, Wanted - plants))) - (moves * Costs.PatchMove);
        return new Remedy(
            RemedyKind.Patch, $"About {Count(spare, "seedling")} to spare, {Count(blanks, "blank")}: move {moves} while they are small", true, plants, moves * Costs.PatchMove, saves, 0)
        {
            Minutes = moves * WorkTime.Of(HandWork.PatchCell).Seconds / 60,
        };
    }

    private Remedy Resown((ResowProposal Proposal, Resow Found)? best)
    {
        if (best is not var (proposal, found))
        {
            return new Remedy(RemedyKind.Resow, "No seed of the variety in stock for a tray", false, 0, null, null, 0) { LastDay = _forecast.LastResowOn };
        }

        var late = DaysLate(proposal.ReadyOn);
        var inTime = IsInTime;
        return new Remedy(
            RemedyKind.Resow,
            (inTime ? $"Sow {Count(proposal.Trays, "tray")} of lot {proposal.LotCode}" : $"Too late since {LastDay()}: {Count(proposal.Trays, "tray")} of lot {proposal.LotCode} sown today")
                + $" ({proposal.Seeds.ToString("N0", CultureInfo.InvariantCulture)} seeds), likely ready {Day(proposal.ReadyOn)}",
            inTime && found.Worth > 0, inTime ? Gained(found) : 0, CellCost(proposal), inTime ? found.Worth : null, inTime ? 0 : late)
        {
            LastDay = _forecast.LastResowOn,
            Resow = inTime ? proposal : null,
        };
    }

    private Remedy Other()
    {
        var others = seed.Others(batch.Ground).ToList();
        var taken = others.Where(other => other.Taken).ToList();
        if (OfLots(taken.Count > 0 ? taken : others) is not var (proposal, found))
        {
            return new Remedy(RemedyKind.OtherVariety, "No seed of another variety of the crop in stock", false, 0, null, null, 0);
        }

        var name = others.First(other => other.Variety.Code == proposal.VarietyCode).Variety.Name;
        var agreed = taken.Count > 0;
        return new Remedy(
            RemedyKind.OtherVariety,
            $"‘{name}’, lot {proposal.LotCode}: {Count(proposal.Trays, "tray")}, likely ready {Day(proposal.ReadyOn)}{(agreed ? "" : "; ask the customer first, then set it as taken instead on the order line")}{(IsInTime ? "" : "; too late for the due day")}",
            IsInTime && agreed && found.Worth > 0, IsInTime ? Gained(found) : 0, CellCost(proposal), IsInTime && agreed ? found.Worth : null,
            IsInTime ? 0 : DaysLate(proposal.ReadyOn))
        {
            LastDay = _forecast.LastResowOn,
            Resow = agreed ? proposal : null,
        };
    }

    private Remedy Part((ResowProposal Proposal, Resow Found)? resow)
    {
        var now = Math.Min(_forecast.Wanted, (int)_forecast.UsablePlants.Median);
        var rest = _forecast.Wanted - now;
        var when = resow is var (proposal, _) ? $", the other {rest} about {Day(LocalDate.Max(proposal.ReadyOn, _forecast.DueOn!.Value))} from a resow" : $"; no seed for the other {rest}";
        return new Remedy(
            RemedyKind.PartDelivery, $"{Count(now, "plant")} on {Day(_forecast.DueOn!.Value)}{when}", rest > 0, 0, null, null,
            resow is var (later, _) ? DaysLate(later.ReadyOn) : 0);
    }

    private Remedy Late((ResowProposal Proposal, Resow Found)? resow)
    {
        if (resow is not var (proposal, _))
        {
            return new Remedy(RemedyKind.LateByConsent, "No seed to sow again", false, 0, null, null, 0);
        }

        var late = DaysLate(proposal.ReadyOn);
        return new Remedy(
            RemedyKind.LateByConsent,
            late > 0 ? $"Sown today all are likely there {Day(proposal.ReadyOn)}, {Count(late, "day")} late: ask the customer" : "Not needed: a resow of today is in time",
            late > 0, 0, CellCost(proposal), null, late)
        {
            Resow = late > 0 ? proposal : null,
        };
    }

    private bool IsInTime => _forecast.LastResowOn is { } last && _forecast.Today <= last;

    /// <summary>Lots that are sown in trays as the batch was; the one that leaves least to lose.</summary>
    private (ResowProposal Proposal, Resow Found)? OfLots(IEnumerable<(SeedLot Lot, Variety Variety, bool Taken)> lots)
    {
        var row = batch.Ground.Row;
        (ResowProposal Proposal, Resow Found)? best = null;
        foreach (var (lot, variety, _) in lots)
        {
            var seedsOfTray = (long)row.TraySet.CellsPerTray * row.Batch.SeedsPerCell;
            var trays = (int)Math.Min(MostTrays, lot.StockSeeds / seedsOfTray);
            if (trays == 0 || PriorOf(lot) is not { } prior)
            {
                continue;
            }

            var question = new ResowQuestion(prior, row.Batch.SeedsPerCell, row.TraySet.CellsPerTray, trays) { Survival = batch.Survival };
            var found = Resow.Best(_outlook, Wanted, question, Costs);

            // Told even where it does not pay: so many trays as are asked about, one.
            found = found.Trays > 0 ? found : Resow.Of(_outlook, Wanted, question, Costs, 1);
            if (best is null || found.Cost < best.Value.Found.Cost)
            {
                best = (new ResowProposal(
                    variety.Code, lot.Code, found.Trays, found.Trays * seedsOfTray, Math.Min(_forecast.Wanted, Missing), ReadyOn(), found.ChanceMet), found);
            }
        }

        return best;
    }

    /// <summary>Of the same lot what this batch shows, once it was counted; of others what is known of them.</summary>
    private BetaShape? PriorOf(SeedLot lot) => lot.Id == batch.Ground.Lot?.Id && batch.Ground.Counts.Count > 0
        ? BetaShape.Of(new Fraction(Math.Clamp(_outlook.Forecast.FinalFraction.Median, 0.02, 0.995)))
        : chances.Of(batch.Ground.Asked(lot, _forecast.Today))?.Prior;

    /// <summary>Sown today: as many days as lie between the last day of a resow and the due day.</summary>
    private LocalDate ReadyOn() => _forecast is { LastResowOn: { } last, DueOn: { } due }
        ? _forecast.Today.PlusDays(Period.DaysBetween(last, due))
        : _forecast.Today.PlusDays(batch.Ground.Row.Crop.DaysToReady);

    private int Gained(Resow found) => (int)Math.Round(Math.Max(0, _outlook.MissingOf(Wanted) - found.Missing));

    private double CellCost(ResowProposal proposal) => proposal.Trays * batch.Ground.Row.TraySet.CellsPerTray * Costs.ResownCell;

    private int DaysLate(LocalDate ready) => Math.Max(0, Period.DaysBetween(_forecast.DueOn!.Value, ready));

    private string LastDay() => _forecast.LastResowOn is { } last ? Day(last) : "sowing";

    private List<How> How() =>
    [
        new How(
            "plants missing on average", "Σ P(usable = x) · max(0, ordered − x)",
            [
                new("usable plants", string.Create(CultureInfo.InvariantCulture, $"{_forecast.UsablePlants.Low:0} to {_forecast.UsablePlants.High:0}"), "", "forecast, nine in ten"),
                HowInput.Of("ordered", _forecast.Wanted, "0", "plants", string.Join(", ", batch.Ground.Ordered.Select(line => line.Order))),
            ],
            "elementary", "docs/agronomy/short-stands.md"),
        new How(
            "what a remedy saves", "missing now × price of a missing plant − missing with it × that price − what it costs",
            [
                HowInput.Of("a missing plant", Costs.MissingPlant, "0.0", "prices of a plant", "from memory"),
                HowInput.Of("a cell sown again", Costs.ResownCell, "0.0", "prices of a plant", "from memory"),
                HowInput.Of("a seedling moved", Costs.PatchMove, "0.0", "prices of a plant", "from memory, ten seconds"),
            ],
            "the newsvendor's rule, Nahmias & Olsen 2015, 5.3 (from memory)", "docs/agronomy/short-stands.md"),
    ];

    private static string Count(long number, string one) =>
        string.Create(CultureInfo.InvariantCulture, $"{number:N0} {one}{(number == 1 ? "" : "s")}");

    private static string Day(LocalDate day) => day.ToString("d MMMM", CultureInfo.InvariantCulture);
}
