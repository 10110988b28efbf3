namespace Nursery.Agronomy.Feed;

/// <summary>Nitrogen for seedlings, and the salt they stand.</summary>
public static class FeedStrength
{
    /// <summary>ppm nitrogen from – to.</summary>
    public static (double From, double To) NitrogenPpm(FeedStage stage) => stage switch
    {
        FeedStage.BeforeCotyledons => (0, 0),
        FeedStage.Cotyledons => (50, 50),
        _ => (100, 150),
    };

    /// <summary>Conductivity suitable for seedlings, mS/cm, until they are potted on. Source: Soluble salt guidelines for greenhouse growth
    /// media. Numbers of different methods are not interchangeable.</summary>
    public static (double From, double To) SeedlingConductivity(ConductivityMethod method) => method switch
    {
        ConductivityMethod.SaturatedMedia => (0.75, 1.99),
        _ => (0.25, 0.75),
    };
}
