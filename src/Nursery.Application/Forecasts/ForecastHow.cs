using System.Globalization;
using NodaTime;
using Nursery.Application.Computed;
using Interval = Nursery.Agronomy.Interval;

namespace Nursery.Application.Forecasts;

/// <summary>Where the numbers of a forecast come from.</summary>
internal static class ForecastHow
{
    private const string Page = "docs/agronomy/forecast.md";
    private const string Grid = "grid approximation, Gelman et al. 2013, 10.1; spreads and survival from memory, held against invented batches";

    public static IReadOnlyList<How> Of(ForecastMaking making, Interval growing)
    {
        var (ground, forecast) = (making.Ground, making.Forecast);
        HowInput[] seed =
        [
            new("chance of a seed", Invariant($"{making.Chance!.Prior.Mean * 100:0} ± {making.Chance.Prior.Spread * 100:0}"), "%",
                ground.Lot is { } lot ? $"label of lot {lot.Code}, house and temperature" : "no lot yet, from memory"),
            HowInput.Of("cells", forecast.Cells, "0", "", "sown"),
            HowInput.Of("seeds a cell", forecast.SeedsPerCell, "0", "", "sown"),
            new("temperature of the mix", Invariant($"{ground.Heat.First.Celsius:0.0}"), "°C on the first day", ground.Heat.From),
            .. ground.Counts.TakeLast(4).Select(Counted),
        ];
        HowInput[] lives =
        [
            .. seed,
            .. CropSurvival.Inputs(ground.Row.Crop),
            .. making.Gone > 0 ? [HowInput.Of("lost beyond that", making.Gone, "0", "plants", "reported or fallen out of the counts")] : Array.Empty<HowInput>(),
        ];
        var how = new List<How>
        {
            making.Chance.How,
            new("expected stand", "cells × chance that a cell has a plant, given exactly these counts", seed, Grid, Page),
            new("usable plants", "stand × what survives − what was lost beyond that", lives, Grid, Page),
        };
        if (forecast.Wanted > 0)
        {
            how.Add(new How(
                "chance of the order", "P(usable plants ≥ plants ordered)",
                [.. lives, HowInput.Of("ordered", forecast.Wanted, "0", "plants", string.Join(", ", ground.Ordered.Select(line => line.Order)))], Grid, Page));
        }

        if (forecast.Ready is not null)
        {
            how.Add(new How(
                "ready window", "half up + days of growing, their half widths added as the root of squares",
                [
                    new("half up", Span(forecast.HalfUp!), "", "rate of the crop at the temperature, given the counts"),
                    new("days of growing", Invariant($"{growing.Low:0} to {growing.High:0}"), "days",
                        Invariant($"{ground.Row.Crop.WeeksToTransplant:0.#} weeks of the crop profile, a tenth on both sides (from memory)")),
                ],
                ground.Row.Crop.Sources, "docs/agronomy/growth.md"));
        }

        if (forecast.LastResowOn is { } last)
        {
            how.Add(new How(
                "last day of a resow", Invariant($"due day − days of growing − days until nine in ten are up = {Day(last)}"),
                [
                    new("due", Day(forecast.DueOn!.Value), "", "the earliest order"),
                    HowInput.Of("growing", growing.Median, "0", "days", "crop profile"),
                    new("temperature", Invariant($"{ground.Heat.Resow.Celsius:0.0}"), "°C", ground.Heat.From),
                ],
                Grid, Page));
        }

        return how;
    }

    private static HowInput Counted(CountedDay count) => new(
        count.What switch
        {
            Domain.Ledger.CountWhat.Seedlings => "seedlings",
            Domain.Ledger.CountWhat.CellsUp => "cells up",
            _ => "blanks",
        },
        Invariant($"{count.Value} in {count.Cells} cells"), "", $"counted {Day(count.Day)}");

    private static string Span(DayWindow days) => $"{Day(days.Early)} to {Day(days.Late)}";

    private static string Day(LocalDate day) => day.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
