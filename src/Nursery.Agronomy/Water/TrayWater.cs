using Nursery.Agronomy.Air;
using Nursery.Agronomy.Mix;

namespace Nursery.Agronomy.Water;

/// <summary>When a tray will be dry. A hint for the round and always an interval: no forecast ever cancels the daily look.</summary>
/// <param name="StoreMm">Water the tray can lose before the threshold, mm over its area.</param>
/// <param name="LossMmPerDay">What it loses a day.</param>
/// <param name="Days">Until it is dry.</param>
public sealed record TrayWater(double StoreMm, double LossMmPerDay, Interval Days)
{
    /// <summary>Before emergence only the top 5 mm count: about 2 mm of water (from memory).</summary>
    public const double GerminationStoreMm = 2;

    /// <summary>Water at which a mix wants watering: suction of half a meter (from memory).</summary>
    private const double ThresholdCm = 50;

    /// <summary>A tray of 27.7 × 54.4 cm.</summary>
    private const double TrayM2 = 0.277 * 0.544;

    /// <summary>Cells taper: volume ÷ (area × height), from memory.</summary>
    private const double Taper = 0.6;

    /// <summary>Aerodynamic resistance in a house, s/m (from memory).</summary>
    private const double Resistance = 295;
    private const double EdgeRows = 1.3;

    /// <summary>Bottom heat dries by 0.5–1.1 mm a day (computed from 10–15 W/ft² running 30–50 % of the time).</summary>
    private const double BottomHeatMm = 0.8;
    private const double Uncertainty = 0.3;

    /// <summary>When a tray is dry again after a thorough watering.</summary>
    /// <param name="cells">Of the tray, 24 to 288.</param>
    /// <param name="isUp">Roots use the whole cell; before that the top alone counts.</param>
    /// <param name="stage">Of its surface.</param>
    /// <param name="air">Around it.</param>
    /// <param name="temperature">Of the air, 0 to 50 °C.</param>
    /// <param name="insideMj">Solar radiation and lamps at the bench, 0 to 40 MJ m⁻² d⁻¹.</param>
    /// <param name="bench">Edge row, bottom heat, and the factor learnt from marks.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static TrayWater Of(
        int cells, bool isUp, SurfaceStage stage, AirState air, Temperature temperature, double insideMj, BenchWater bench)
    {
        var store = isUp ? StoreOf(cells) : GerminationStoreMm;
        var loss = Evaporation(air, temperature, insideMj) * Factor(stage) * (bench.IsEdge ? EdgeRows : 1);
        loss = (loss + (bench.HasBottomHeat ? BottomHeatMm * Math.Min(1, Factor(stage)) : 0)) * bench.Learnt;
        var days = store / Math.Max(0.02, loss);
        return new TrayWater(store, loss, new Interval(days, days / (1 + Uncertainty), days * (1 + Uncertainty)));
    }

    /// <summary>Water a tray gives before it wants more: cell volume × (after drainage − threshold), mm over the tray.</summary>
    /// <param name="cells">24 to 288.</param>
    public static double StoreOf(int cells)
    {
        var volume = CellVolume.Of(cells);
        var height = new Length(volume.CubicMeters / (TrayM2 / cells * Taper));
        var held = WaterRetention.Bedding.AfterDrainage(height).Value - WaterRetention.Bedding.At(ThresholdCm).Value;
        return cells * volume.Liters * Math.Max(0, held) / TrayM2;
    }

    /// <summary>Penman's open water with no exchange of heat radiation under the cover and a fixed resistance. Source of the form: Penman–Monteith,
    /// FAO Irrigation and Drainage Paper 56, equation 3, with a surface resistance of none.</summary>
    private static double Evaporation(AirState air, Temperature temperature, double insideMj)
    {
        InputOutOfRange.Within(temperature.C, 0, 50, nameof(temperature), "°C");
        var net = 0.77 * InputOutOfRange.Within(insideMj, 0, 40, nameof(insideMj), "MJ m⁻² d⁻¹");
        var gamma = 0.000665 * air.AirPressure.Kilopascals;
        const double heat = 1.013e-3 * 86400;
        var density = air.AirPressure.Kilopascals / (1.01 * (temperature.C + 273) * 0.287);
        return ((air.SlopeKpaPerC * net) + (density * heat * air.Deficit.Kilopascals / Resistance)) / (2.45 * (air.SlopeKpaPerC + gamma));
    }

    /// <summary>All from memory.</summary>
    private static double Factor(SurfaceStage stage) => stage switch
    {
        SurfaceStage.BareWet => 1.0,
        SurfaceStage.Vermiculite => 0.5,
        SurfaceStage.Dome => 0.15,
        SurfaceStage.Cotyledons => 0.5,
        SurfaceStage.HalfCanopy => 0.8,
        _ => 1.1,
    };
}
