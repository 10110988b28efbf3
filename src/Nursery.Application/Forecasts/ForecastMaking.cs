using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Growth;
using Nursery.Application.Computed;
using Nursery.Application.Crops;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Interval = Nursery.Agronomy.Interval;

namespace Nursery.Application.Forecasts;

/// <summary>The forecast of a batch out of what is known of it, with the outlook it was read from. The one place where the two meet.</summary>
/// <param name="Ground">What is known.</param>
/// <param name="Question">As it was asked; null where nothing can be expected.</param>
/// <param name="Outlook">To be asked on.</param>
/// <param name="Gone">Plants lost beyond what survival expects.</param>
/// <param name="Chance">Of a seed, before anything is counted.</param>
/// <param name="Forecast">What came of it.</param>
internal sealed record ForecastMaking(
    ForecastGround Ground, ForecastQuestion? Question, EmergenceOutlook? Outlook, int Gone, SeedChance? Chance, BatchForecast Forecast)
{
    /// <summary>Counts this much later than nine in ten up see all there is (from memory).</summary>
    private const double OverAfter = 1.3;
    private const double AmpleLight = 10;
    private static readonly Temperature WarmHouse = new(20);
    private static readonly Temperature CoolHouse = new(16);

    /// <summary>What survives of the emerged.</summary>
    public BetaShape Survival => CropSurvival.Of(Ground.Row.Crop);

    public static ForecastMaking Of(ForecastGround ground, SeedChance? chance, LocalDate today)
    {
        var (batch, crop) = (ground.Row.Batch, ground.Row.Crop);
        var bare = Bare(ground, today);
        if (chance is null)
        {
            return new ForecastMaking(ground, null, null, 0, null, bare with { WhyNone = "At the temperature of its mix nothing would come up" });
        }

        var emergence = FindCropEmergence.Of(crop);
        var growing = GrowingOf(crop);
        var question = new ForecastQuestion(
            emergence.Rate, emergence.Curve, batch.Cells, batch.SeedsPerCell, chance.Prior, ground.Heat.Record,
            [.. ground.Counts.Select(count => count.Emergence(ground.SownOn))],
            Math.Clamp(Period.DaysBetween(ground.SownOn, today), 0, 366), bare.Wanted)
        {
            Survival = CropSurvival.Of(crop),
            DueDay = bare.DueOn is { } due && due >= ground.SownOn ? Math.Min(1000, Period.DaysBetween(ground.SownOn, due)) : null,
            GrowDays = growing.Median,
            ResowTemperature = ground.Heat.Resow,
        };
        var outlook = EmergenceOutlook.Of(question);
        var gone = GoneOf(ground, outlook.Forecast.Stand.Median);
        var making = new ForecastMaking(ground, question, outlook, gone, chance, bare);
        var forecast = making.Filled(growing);
        return making with { Forecast = forecast with { How = ForecastHow.Of(making with { Forecast = forecast }, growing) } };
    }

    /// <summary>Days from emergence to ready. A profile has one number of weeks, so it is taken with a tenth on both sides.</summary>
    public static Interval GrowingOf(Crop crop)
    {
        var weeks = ReadyWindow.WeeksAround((double)crop.WeeksToTransplant);
        var warm = crop.GrowOnBand == Band.Warm;
        var house = warm ? WarmHouse : CoolHouse;
        return ReadyDays.Of(weeks, Math.Min(60, crop.DaysToEmergence), house, house, AmpleLight, warm ? Hardiness.Tender : Hardiness.Hardy)!.Value;
    }

    private BatchForecast Filled(Interval growing)
    {
        var (sown, found, half) = (Ground.SownOn, Outlook!.Forecast, Outlook.DayOfHalf());
        var counted = Ground.Counts.Count > 0;
        var isOver = counted && found.DayOf90Percent is { } up
            && Period.DaysBetween(sown, Ground.Counts[^1].Day) >= OverAfter * up;
        var served = 0;
        return Forecast with
        {
            Basis = !counted ? ForecastBasis.Expected : isOver || Ground.Counts[^1].OfStand ? ForecastBasis.Over : ForecastBasis.Counted,
            FinalFraction = found.FinalFraction,
            Stand = found.Stand,
            UsablePlants = Less(found.UsablePlants),
            ChanceMet = Forecast.Wanted == 0 ? null : Outlook.ChanceOf(Forecast.Wanted + Gone).Value,
            ChanceShort = Forecast.Wanted == 0 ? null : 1 - Outlook.ChanceOf(ShortStand.Enough(Forecast.Wanted) + Gone).Value,
            ExpectedMissing = Forecast.Wanted == 0 ? 0 : Math.Min(Forecast.Wanted, Outlook.MissingOf(Forecast.Wanted + Gone)),
            Lines = [.. Ground.Ordered.Select(line => new LineChance(line, Outlook.ChanceOf((served += line.Plants) + Gone).Value))],
            NineInTenUpOn = On(found.DayOf90Percent),
            HalfUp = half is { } days ? Window(days) : null,
            Ready = half is { High: <= 366 } within ? Window(ReadyWindow.Of(within, growing)) : null,
            LastResowOn = On(found.LastResowDay),
            KnownFrom = Question!.Rate.DaysToHalf(Ground.Heat.First) is { } plain and <= 366 ? On(ShortStand.KnownFrom(plain)) : null,
        };
    }

    private LocalDate? On(double? day) => day is { } days and < 5000 and > -5000 ? Ground.SownOn.PlusDays((int)Math.Ceiling(days)) : null;

    private DayWindow Window(Interval days) => new(
        Ground.SownOn.PlusDays((int)Math.Floor(Math.Min(5000, days.Low))), Ground.SownOn.PlusDays((int)Math.Round(Math.Min(5000, days.Median))),
        Ground.SownOn.PlusDays((int)Math.Ceiling(Math.Min(5000, days.High))));

    private Interval Less(Interval plants) => new(
        Math.Max(0, plants.Median - Gone), Math.Max(0, plants.Low - Gone), Math.Max(0, plants.High - Gone));

    /// <summary>What was reported lost, or fell out of the counts, beyond the losses that survival expects anyway.</summary>
    private static int GoneOf(ForecastGround ground, double stand)
    {
        var byCell = ground.Counts.Where(count => count.Cells == ground.Row.Batch.Cells).Select(count => count.CellsUp).ToList();
        var fell = byCell.Count == 0 ? 0 : byCell.Max() - byCell[^1];
        return (int)Math.Max(0, Math.Max(ground.Row.Batch.State.Lost, fell) - Math.Round(stand * (1 - CropSurvival.Of(ground.Row.Crop).Mean)));
    }

    private static BatchForecast Bare(ForecastGround ground, LocalDate today)
    {
        var (batch, due) = (ground.Row.Batch, ground.Ordered.Count == 0 ? (LocalDate?)null : ground.Ordered[0].DueOn);
        return new BatchForecast
        {
            BatchId = batch.Id.Value,
            Code = batch.Code,
            CropName = ground.Row.Crop.Name,
            VarietyName = ground.Row.Variety.Name,
            Stage = batch.State.Stage,
            SownOn = ground.SownOn,
            Today = today,
            Cells = batch.Cells,
            SeedsPerCell = batch.SeedsPerCell,
            Basis = ForecastBasis.Expected,
            Last = ground.Counts.Count == 0 ? null : ground.Counts[^1],
            Wanted = ground.Ordered.Sum(line => line.Plants),
            DueOn = due,
            SlackDays = due is { } day ? Period.DaysBetween(batch.ReadyOn, day) : null,
        };
    }
}
