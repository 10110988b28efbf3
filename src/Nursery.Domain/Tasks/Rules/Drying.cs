using System.Globalization;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Air;
using Nursery.Agronomy.Light;
using Nursery.Agronomy.Mix;
using Nursery.Agronomy.Water;
using Nursery.Domain.Houses;
using Nursery.Domain.Ledger;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>When the trays of a batch are dry after a watering (docs/agronomy/water.md): by tray, stage, cover, mat, sun of that day, and
/// by what dry and wet marks taught of the bench. From the batch's own days and the setup alone, so the same ledger gives the same day.</summary>
/// <param name="Water">Store, loss and days.</param>
/// <param name="Bench">With the factor learnt.</param>
/// <param name="Marks">How many marks moved it.</param>
/// <param name="What">The trays in words.</param>
internal sealed record Drying(TrayWater Water, BenchWater Bench, int Marks, string What)
{
    /// <summary>Radiation outside where nobody said where the site lies, MJ m⁻² d⁻¹: a spring day of middle latitudes (from memory).</summary>
    private const double AssumedOutsideMj = 12;

    /// <summary>Germination benches stand in shade or under film: half the light of the house (from memory).</summary>
    private const double ShadeOnHeat = 0.5;

    /// <summary>Of the air in a house by day and night (from memory).</summary>
    private const double Humidity = 0.65;

    /// <summary>Days from the first true leaf to leaves that close over the tray (from memory).</summary>
    private const int ToClosedCanopyDays = 14;

    /// <summary>Young plugs are not left longer whatever is reckoned (our choice): on heat, and under light.</summary>
    private const int MostDaysOnHeat = 3;
    private const int MostDaysUnderLight = 2;

    /// <summary>After the watering of a day; null where nobody knows what trays they are.</summary>
    public static Drying? After(BatchFacts facts, LocalDate wateredOn)
    {
        if (facts.Care is not { } care)
        {
            return null;
        }

        var (bench, marks) = (new BenchWater(), 0);
        foreach (var mark in care.Marks ?? [])
        {
            var watered = (care.Waterings ?? []).Where(day => day < mark.Day).Select(day => (LocalDate?)day).Max();
            if (watered is not { } day || mark.State == SurfaceState.Damp)
            {
                continue;
            }

            var expected = Period.DaysBetween(day, mark.Day) / Of(facts, care, day, bench).Water.Days.Median;
            var next = bench.After(Math.Min(100, expected), mark.State == SurfaceState.Dry, mark.State == SurfaceState.Wet);
            marks += next.Learnt == bench.Learnt ? 0 : 1;
            bench = next;
        }

        return Of(facts, care, wateredOn, bench) with { Marks = marks };
    }

    /// <summary>Whole days from the watering to the next.</summary>
    public int DueDays => Math.Clamp(
        (int)Math.Round(Water.Days.Median, MidpointRounding.AwayFromZero), 1, Bench.HasBottomHeat ? MostDaysOnHeat : MostDaysUnderLight);

    /// <summary>'72 cells, covered, on heat: dry in about 1.9 days (1.5–2.5)'.</summary>
    public string Words => string.Create(
        CultureInfo.InvariantCulture, $"{What}: dry in about {Water.Days.Median:0.0} days ({Water.Days.Low:0.0}–{Water.Days.High:0.0}){Learnt}");

    private string Learnt => Marks == 0
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $"; this bench dries {Bench.Learnt:0.0} × as fast as usual by {Many(Marks, "mark", "marks")}");

    private static Drying Of(BatchFacts facts, CareGround care, LocalDate wateredOn, BenchWater bench)
    {
        var cells = Math.Clamp(care.CellsPerTray, CellVolume.Known[0], CellVolume.Known[^1]);
        var onHeat = facts.State.OffHeatOn is not { } off || off > wateredOn;
        var leaf = facts.UpOn?.PlusDays(facts.Crop.TrueLeafDays);
        var (stage, rooted, seen) = (facts.UpOn, leaf) switch
        {
            (null, _) => facts.Crop.DepthMm > 0 ? (SurfaceStage.Vermiculite, false, "covered") : (SurfaceStage.BareWet, false, "surface-sown"),
            ({ } up, _) when wateredOn < up => facts.Crop.DepthMm > 0 ? (SurfaceStage.Vermiculite, false, "covered") : (SurfaceStage.BareWet, false, "surface-sown"),
            (_, { } first) when wateredOn < first => (SurfaceStage.Cotyledons, false, "seed leaves"),
            (_, { } first) when wateredOn < first.PlusDays(ToClosedCanopyDays) => (SurfaceStage.HalfCanopy, true, "true leaves"),
            _ => (SurfaceStage.ClosedCanopy, true, "closed leaves"),
        };
        var air = new Temperature(care.AirC ?? House.AssumedAirC);
        var heated = bench with { HasBottomHeat = onHeat };
        var water = TrayWater.Of(
            cells, rooted, stage, AirState.Of(air, new Fraction(Humidity), new Length(0), AirFormula.Fao56), air,
            InsideMj(care, wateredOn) * (onHeat ? ShadeOnHeat : 1), heated);
        return new Drying(water, heated, 0, string.Create(
            CultureInfo.InvariantCulture, $"{care.CellsPerTray} cells, {seen}, {(onHeat ? "on heat" : "under light")}"));
    }

    private static double InsideMj(CareGround care, LocalDate day)
    {
        var cover = new Fraction((double)(care.CoverShare ?? (decimal)DailyLight.UsualCover));
        return care.Latitude is { } latitude
            ? HouseLight.InsideMj(new Latitude((double)latitude), day.DayOfYear, cover)
            : AssumedOutsideMj * cover.Value;
    }
}
