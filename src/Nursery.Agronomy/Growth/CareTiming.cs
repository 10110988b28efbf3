using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Growth;

/// <summary>When seedlings want care if nobody saw the sign itself.</summary>
public static class CareTiming
{
    /// <summary>Days after emergence to thin when the first true leaf was not noted: 5–10 for cool crops, 7–14 for others (common practice, no
    /// source).</summary>
    public static (int From, int To) ThinAfterEmergence(CropClass kind) => kind == CropClass.Cool ? (5, 10) : (7, 14);

    /// <summary>Days of hardening before planting out: 7–14. Source: Hardening vegetable seedlings for the home garden, University of
    /// Maryland Extension, 2023 (one to two weeks).</summary>
    public static (int From, int To) HardeningDays { get; } = (7, 14);

    /// <summary>Coldest air for hardening: 50 °F tomato, 60 °F pepper and eggplant (Transplant Production, Utah State University Extension);
    /// 45 °F for others (University of Maryland Extension: no tender seedling outdoors below).</summary>
    /// <param name="crop">Name of the crop.</param>
    public static Temperature HardeningFloor(string crop) => Temperature.FromFahrenheit(crop.Trim().ToUpperInvariant() switch
    {
        "TOMATO" => 50,
        "PEPPER" or "EGGPLANT" => 60,
        _ => 45,
    });
}
