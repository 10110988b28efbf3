using Nursery.Agronomy;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;

namespace Nursery.Testing.Nurseries;

/// <summary>Three crops with round numbers, invented for tests: a warm one, a cool one and one between.</summary>
public static class TestCrops
{
    /// <summary>65–95 °F, so a zone of 60 °F is too cold for it.</summary>
    public static Crop Pepper() => new()
    {
        Id = New(),
        Code = "PE",
        Name = "Pepper",
        Species = "Capsicum annuum",
        GerminationMinC = Celsius(65),
        GerminationOptimumC = Celsius(85),
        GerminationMaxC = Celsius(95),
        DaysToEmergence = 8,
        WeeksToTransplant = 8,
        DepthMm = 6,
        Light = LightNeed.Indifferent,
        CellsPerTray = 72,
        SeedsPerCell = 2,
        MoveOffFraction = 0.5m,
        ThinDaysAfterEmergence = 14,
        HardeningDays = 10,
        GrowOnBand = Band.Warm,
        Sources = "invented for tests",
    };

    /// <summary>35–75 °F, so a zone of 80 °F is too hot for it; never thinned.</summary>
    public static Crop Lettuce() => new()
    {
        Id = New(),
        Code = "LE",
        Name = "Lettuce",
        Species = "Lactuca sativa",
        GerminationMinC = Celsius(35),
        GerminationOptimumC = Celsius(70),
        GerminationMaxC = Celsius(75),
        DaysToEmergence = 3,
        WeeksToTransplant = 5,
        DepthMm = 0,
        Light = LightNeed.NeedsLight,
        CellsPerTray = 128,
        SeedsPerCell = 1,
        MoveOffFraction = 0.5m,
        ThinDaysAfterEmergence = null,
        HardeningDays = 7,
        GrowOnBand = Band.Cool,
        Sources = "invented for tests",
    };

    /// <summary>50–95 °F: any zone suits it.</summary>
    public static Crop Tomato() => new()
    {
        Id = New(),
        Code = "TO",
        Name = "Tomato",
        Species = "Solanum lycopersicum",
        GerminationMinC = Celsius(50),
        GerminationOptimumC = Celsius(85),
        GerminationMaxC = Celsius(95),
        DaysToEmergence = 6,
        WeeksToTransplant = 6,
        DepthMm = 6,
        Light = LightNeed.Indifferent,
        CellsPerTray = 72,
        SeedsPerCell = 1,
        MoveOffFraction = 0.5m,
        ThinDaysAfterEmergence = 10,
        HardeningDays = 10,
        GrowOnBand = Band.Warm,
        Sources = "invented for tests",
    };

    /// <summary>A whole °F as the database stores it.</summary>
    public static decimal Celsius(decimal fahrenheit) => Math.Round(Temperature.FromFahrenheit(fahrenheit).Celsius, 2);

    private static Id<Crop> New() => NewId.Of<Crop>(TimeProvider.System);
}
